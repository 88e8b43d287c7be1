/**
 * What a library's loader and Postgres ask for by name, beside functions that Postgres can call: constructors and
 * relocations, snippets of JavaScript, thread and dynamic calls, the library's own beginning and end.
 */
const ASKED_FOR =
  /^(__wasm_|__em_|__start_|__stop_|__tls_|__cpp_exception|__dso_handle|_initialize|dynCall_|Pg_magic_func$|_PG_|pg_finfo_)/
const INFO = 'pg_finfo_'
const [IMPORTS, EXPORTS, FUNCTION] = [2, 7, 0]
const HEADER_BYTES = 8

/**
 * A WebAssembly side module without the exports that nothing asks for. PostGIS's library exports 23,000 names, nearly all
 * of them C++ within it; the engine's loader goes through every one of them as it loads, and again for each function that
 * Postgres looks up for the first time. What the library takes from itself by name (its imports), what Postgres can call
 * (by the `pg_finfo_` beside it, PostgreSQL 17, section 36.10.4) and what a loader asks for stays. Sections as in the
 * WebAssembly core specification, 5.5. Throws where the bytes are no module.
 */
export function trimExports(library: Uint8Array): Uint8Array {
  const sections = sectionsOf(library)
  const exports = sections.find(({ id }) => id === EXPORTS)
  if (!exports) return library
  const all = exportsIn(library, exports)
  const names = new Set(all.map(({ name }) => name))
  const own = importsIn(library, sections)
  const kept = all.filter(
    ({ name, kind }) => ASKED_FOR.test(name) || own.has(name) || (kind === FUNCTION && names.has(`${INFO}${name}`)),
  )
  const count = leb(kept.length)
  const length = kept.reduce((sum, { from, to }) => sum + to - from, count.length)
  const head = [EXPORTS, ...leb(length), ...count]
  const before = library.subarray(0, exports.from)
  const after = library.subarray(exports.end)
  const trimmed = new Uint8Array(before.length + head.length - count.length + length + after.length)
  trimmed.set(before)
  trimmed.set(head, before.length)
  let at = before.length + head.length
  for (const { from, to } of kept) {
    trimmed.set(library.subarray(from, to), at)
    at += to - from
  }
  trimmed.set(after, at)
  return trimmed
}

/** A section with where it begins, where its content does, and where it ends. */
interface Section {
  readonly id: number
  readonly from: number
  readonly content: number
  readonly end: number
}

function sectionsOf(bytes: Uint8Array): Section[] {
  if (String.fromCharCode(...bytes.subarray(0, 4)) !== '\0asm') throw new Error('the library is no WebAssembly module')
  const found: Section[] = []
  const reader = new Reader(bytes, HEADER_BYTES)
  while (reader.at < bytes.length) {
    const from = reader.at
    const id = reader.byte()
    const length = reader.leb()
    found.push({ id, from, content: reader.at, end: reader.at + length })
    reader.at += length
  }
  return found
}

function exportsIn(bytes: Uint8Array, { content }: Section) {
  const reader = new Reader(bytes, content)
  return Array.from({ length: reader.leb() }, () => {
    const from = reader.at
    const name = reader.name()
    const kind = reader.byte()
    reader.leb()
    return { name, kind, from, to: reader.at }
  })
}

/** Names that the module takes from others, or from itself by way of them. */
function importsIn(bytes: Uint8Array, sections: readonly Section[]): Set<string> {
  const section = sections.find(({ id }) => id === IMPORTS)
  if (!section) return new Set()
  const reader = new Reader(bytes, section.content)
  return new Set(
    Array.from({ length: reader.leb() }, () => {
      reader.name()
      const name = reader.name()
      const kind = reader.byte()
      // By kind: a function's type, a table's and a memory's limits, a global's type, a tag's.
      if (kind === 0) reader.leb()
      else if (kind === 1) {
        reader.byte()
        reader.limits()
      } else if (kind === 2) reader.limits()
      else if (kind === 3) reader.at += 2
      else {
        reader.byte()
        reader.leb()
      }
      return name
    }),
  )
}

class Reader {
  readonly bytes: Uint8Array
  at: number
  constructor(bytes: Uint8Array, at: number) {
    this.bytes = bytes
    this.at = at
  }
  byte(): number {
    return this.bytes[this.at++]!
  }
  /** An unsigned number, seven bits a byte, the least first. */
  leb(): number {
    let value = 0
    for (let shift = 0; ; shift += 7) {
      const byte = this.byte()
      value += (byte & 0x7f) * 2 ** shift
      if (byte < 0x80) return value
    }
  }
  limits(): void {
    const flags = this.byte()
    this.leb()
    if (flags & 1) this.leb()
  }
  name(): string {
    const length = this.leb()
    this.at += length
    return new TextDecoder().decode(this.bytes.subarray(this.at - length, this.at))
  }
}

function leb(value: number): number[] {
  const bytes: number[] = []
  for (let left = value; ; left = Math.floor(left / 128)) {
    if (left < 128) return [...bytes, left]
    bytes.push((left % 128) + 128)
  }
}
