/** One file of a tar archive; a directory's name ends in `/` and its bytes are empty. */
export interface TarEntry {
  readonly name: string
  readonly bytes: Uint8Array
}

const BLOCK = 512

/** What an uncompressed tar archive (POSIX.1-1988 ustar) holds, in its order; the bytes are the archive's own. */
export function* entriesInTar(tar: Uint8Array): Generator<TarEntry> {
  for (let at = 0; at + BLOCK <= tar.length && tar[at] !== 0; ) {
    const size = Number.parseInt(text(tar, at + 124, 12), 8)
    const start = at + BLOCK
    yield { name: text(tar, at, 100), bytes: tar.subarray(start, start + size) }
    at = start + Math.ceil(size / BLOCK) * BLOCK
  }
}

/** The file `name` of an uncompressed tar archive. Throws when it is not there. */
export function fileInTar(tar: Uint8Array, name: string): Uint8Array {
  for (const entry of entriesInTar(tar)) if (entry.name === name) return entry.bytes
  throw new Error(`no file ${name} in the tar archive`)
}

/** A tar archive (POSIX.1-1988 ustar) without times or owners, so that the same files give the same bytes. */
export function writeTar(entries: readonly TarEntry[]): Uint8Array {
  const sizes = entries.map((entry) => BLOCK + Math.ceil(entry.bytes.length / BLOCK) * BLOCK)
  const tar = new Uint8Array(sizes.reduce((sum, size) => sum + size, 2 * BLOCK))
  let at = 0
  entries.forEach((entry, i) => {
    tar.set(header(entry), at)
    tar.set(entry.bytes, at + BLOCK)
    at += sizes[i]!
  })
  return tar
}

function header({ name, bytes }: TarEntry): Uint8Array {
  const folder = name.endsWith('/')
  const block = new Uint8Array(BLOCK)
  const put = (value: string, at: number) => block.set(new TextEncoder().encode(value), at)
  const octal = (value: number, digits: number) => `${value.toString(8).padStart(digits, '0')}\0`
  if (name.length > 100) throw new Error(`name too long for a tar header: ${name}`)
  put(name, 0)
  put(octal(folder ? 0o750 : 0o640, 7), 100)
  put(octal(0, 7), 108)
  put(octal(0, 7), 116)
  put(octal(bytes.length, 11), 124)
  put(octal(0, 11), 136)
  put(' '.repeat(8), 148)
  put(folder ? '5' : '0', 156)
  put('ustar\x0000', 257)
  const sum = block.reduce((total, byte) => total + byte, 0)
  put(`${octal(sum, 6)} `, 148)
  return block
}

function text(bytes: Uint8Array, at: number, length: number): string {
  const field = bytes.subarray(at, at + length)
  const end = field.indexOf(0)
  return new TextDecoder().decode(end < 0 ? field : field.subarray(0, end))
}
