import { fileURLToPath } from 'node:url'
import type { Plugin, Rollup } from 'vite'

const MAIN = fileURLToPath(new URL('../main.tsx', import.meta.url))
/** Vite writes it into whatever fetches a part, `first.ts` among it: it can't wait for the page's program. */
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
                    needed ??= importedAtOnce(MAIN, (one) => context.getModuleInfo(one))
                    return needed.has(id) && id !== FETCHING ? 'page' : null
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

/** A module and those that it imports, with what they import in turn. */
function importedAtOnce(id: string, info: Rollup.GetModuleInfo, found = new Set<string>()): Set<string> {
  if (found.has(id)) return found
  found.add(id)
  for (const next of info(id)?.importedIds ?? []) importedAtOnce(next, info, found)
  return found
}
