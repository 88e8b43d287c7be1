/** What is used of the engine's module, by Emscripten's names. */
export interface LookupModule {
  UTF8ToString(at: number): string
  addFunction(linked: (...args: never[]) => unknown): number
}

/** `dlsym`: the library's handle, where the name stands, where a new place in the function table is told; gives the address. */
type Lookup = (library: number, name: number, place: number) => number

interface Starting {
  instantiateWasm: (
    imports: { env: { _dlsym_js: Lookup } },
    done: (instance: { exports: object }, module: unknown) => void,
  ) => unknown
}

const INFO = 'pg_finfo_'

/**
 * Has Postgres find a library's functions among the names that are linked already. The engine's loader goes through
 * every name that PostGIS exports, for each function that is called the first time: a third of a second of the first
 * reckoning. Only functions that Postgres can call (by the `pg_finfo_` beside it, PostgreSQL 17, section 36.10.4), each a
 * name that no two libraries have; all else, and what the engine itself has under that name, is asked of the loader.
 * Given what the engine starts from; gives what is to be called once it stands.
 */
export function quickenLookups(starting: Starting): (module: LookupModule) => void {
  const known: { module?: LookupModule; own?: ReadonlySet<string> } = {}
  const instantiate = starting.instantiateWasm
  starting.instantiateWasm = (imports, done) => {
    // Emscripten keeps here whatever has been linked so far.
    const linked = imports.env as unknown as Readonly<Record<string, unknown>>
    const ask = imports.env._dlsym_js
    imports.env._dlsym_js = (library, at, place) => {
      const { module, own } = known
      if (!module || !own) return ask(library, at, place)
      const name = module.UTF8ToString(at)
      const beside = name.startsWith(INFO) ? name.slice(INFO.length) : `${INFO}${name}`
      const found = linked[name]
      return typeof found === 'function' && typeof linked[beside] === 'function' && !own.has(name)
        ? module.addFunction(found as () => unknown)
        : ask(library, at, place)
    }
    return instantiate(imports, (instance, compiled) => {
      known.own = new Set(Object.keys(instance.exports))
      done(instance, compiled)
    })
  }
  return (module) => {
    known.module = module
  }
}
