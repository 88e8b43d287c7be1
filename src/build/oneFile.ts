import { fileURLToPath } from 'node:url'
import type { Rollup } from 'vite'

/** What is used of the build while it cuts its output. */
interface Cutting {
  readonly getModuleInfo: Rollup.GetModuleInfo
}

/**
 * Options of a build's output that put into one file what a program needs before it can do anything: the module `program`
 * (its path below `src`) and all that it imports, but for what `starter`, which fetches it, needs itself. What parts
 * fetched later share with it would else be cut into dozens, and each costs a way to the server and back. Builds without
 * that module are as they were.
 */
export function oneFile(name: string, starter: string, program: string) {
  const at = (path: string) => fileURLToPath(new URL(`../${path}`, import.meta.url))
  const [first, main] = [at(starter), at(program)]
  let needed: ReadonlySet<string> | undefined
  const group = {
    debugName: name,
    includeDependenciesRecursively: false,
    name: (id: string, cutting: Cutting) => {
      const info = (one: string) => cutting.getModuleInfo(one)
      if (!info(main)) return null
      needed ??= without(importedAtOnce(main, info), importedAtOnce(first, info))
      return needed.has(id) ? name : null
    },
  }
  return { output: { codeSplitting: { groups: [group] } } }
}

const without = (all: ReadonlySet<string>, some: ReadonlySet<string>): ReadonlySet<string> =>
  new Set([...all].filter((id) => !some.has(id)))

/** A module and those that it imports, with what they import in turn. */
function importedAtOnce(id: string, info: Rollup.GetModuleInfo, found = new Set<string>()): Set<string> {
  if (found.has(id)) return found
  found.add(id)
  for (const next of info(id)?.importedIds ?? []) importedAtOnce(next, info, found)
  return found
}
