/** Postgres' ERROR level (elog.h). */
const ERROR = 21

/** What is used of the engine's module, by Emscripten's names. */
export interface ErrorModule {
  readonly HEAPU32: Uint32Array
  readonly __ZTISt9exception: number
  UTF8ToString(at: number): string
  stringToUTF8OnStack(text: string): number
  _errstart(level: number, domain: number): number
  _errmsg_internal(format: number, values: number): number
  _errfinish(file: number, line: number, routine: number): void
}

/** What is used of what the engine's WebAssembly takes and gives. */
interface Linked {
  env: {
    __cxa_throw: (thrown: number, type: number) => void
    readonly __indirect_function_table: { get(index: number): (self: number) => number }
  }
  exports: { __cxa_can_catch(wanted: number, type: number, adjusted: number): number }
}

interface Starting {
  instantiateWasm: (
    imports: { env: Linked['env'] },
    done: (instance: { exports: Linked['exports'] }, module: unknown) => void,
  ) => unknown
}

/**
 * Makes an exception of GEOS or PROJ an ordinary SQL error. They are built without any catching, so in this engine
 * each would leave Postgres in the middle of a statement, unseen: in a transaction its neighbours would be committed.
 * Given what the engine starts from; gives what is to be called before PostGIS is loaded.
 */
export function raiseThrown(starting: Starting): (module: ErrorModule) => void {
  const linked: Partial<Linked> = {}
  const instantiate = starting.instantiateWasm
  starting.instantiateWasm = (imports, done) => {
    linked.env = imports.env
    return instantiate(imports, (instance, compiled) => {
      linked.exports = instance.exports
      done(instance, compiled)
    })
  }
  return (module) => {
    const { env, exports } = linked
    if (!env || !exports) throw new Error('the engine started without linking')
    env.__cxa_throw = (thrown, type) => {
      const message = `geometry or projection failed: ${whatOf(module, { env, exports }, thrown, type)}`
      module._errstart(ERROR, 0)
      module._errmsg_internal(module.stringToUTF8OnStack(message.replaceAll('%', '%%')), 0)
      module._errfinish(0, 0, 0)
    }
  }
}

/** What an exception says: `what()` stands third in the table of `std::exception` (Itanium C++ ABI 2.5). */
function whatOf(module: ErrorModule, { env, exports }: Linked, thrown: number, type: number): string {
  const word = (at: number) => module.HEAPU32[at >> 2]!
  if (!exports.__cxa_can_catch(module.__ZTISt9exception, type, thrown - 8)) return 'an exception without a text'
  return module.UTF8ToString(env.__indirect_function_table.get(word(word(thrown) + 8))(thrown))
}
