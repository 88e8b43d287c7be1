import { fileURLToPath } from 'node:url'
import type { Plugin, Rollup } from 'vite'

const FIRST = fileURLToPath(new URL('../first.ts', import.meta.url))
const MAIN = fileURLToPath(new URL('../main.tsx', import.meta.url))
/** Vite writes it into whatever fetches a part, `first.ts` among it, once modules are read. */
const FETCHING = '\0vite/preload-helper.js'

/**
 * Puts what the page needs before it can ask for anything into one file. What parts fetched later share with it would
 * else be cut into dozens, and each costs a way to the server and back.
 */
export function onePage(): Plugin {
  let needed: ReadonlySet<string> | undefined
  return {
    name: 'selion-one-page',
    apply: 'build',
    buildStart() {
      needed = undefined
    },
    config: () => ({
      build: {
        rolldownOptions: {
          output: {
            codeSplitting: {
              groups: [
                {
                  debugName: 'page',
                  includeDependenciesRecursively: false,
                  name: (id, context) => {
                    needed ??= neededBy(MAIN, FIRST, (one) => context.getModuleInfo(one))
                    return needed.has(id) ? 'page' : null
                  },
                },
              ],
            },
          },
        },
      },
    }),
  }
}

/** The modules that `main` imports at once, with what they import; not those that `first` needs, which comes before it. */
function neededBy(main: string, first: string, info: Rollup.GetModuleInfo): ReadonlySet<string> {
  const before = importedAtOnce(first, info).add(FETCHING)
  return new Set([...importedAtOnce(main, info)].filter((id) => !before.has(id)))
}

function importedAtOnce(id: string, info: Rollup.GetModuleInfo, found = new Set<string>()): Set<string> {
  if (found.has(id)) return found
  found.add(id)
  for (const next of info(id)?.importedIds ?? []) importedAtOnce(next, info, found)
  return found
}
