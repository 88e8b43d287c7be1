/** Names that count: a prefix, then a number written with at least so many digits. */
export interface NamePattern {
  readonly prefix: string
  readonly start: number
  readonly digits: number
}

export function namesByPattern({ prefix, start, digits }: NamePattern, count: number): string[] {
  return Array.from({ length: count }, (_, n) => prefix + String(start + n).padStart(digits, '0'))
}

/** Those of the names that are taken, told apart as people tell names apart: without regard to case. */
export function takenOf(names: readonly string[], taken: Iterable<string>): string[] {
  const there = new Set([...taken].map(plain))
  return names.filter((name) => there.has(plain(name)))
}

/** The least start, from the pattern's own on, at which so many names in a row are free. */
export function freeStart(pattern: NamePattern, count: number, taken: Iterable<string>): number {
  const there = new Set([...taken].map(plain))
  const name = (n: number) => plain(pattern.prefix + String(n).padStart(pattern.digits, '0'))
  let start = pattern.start
  for (let n = start; n < start + count; n += 1) if (there.has(name(n))) start = n + 1
  return start
}

const plain = (name: string) => name.trim().toLocaleLowerCase()
