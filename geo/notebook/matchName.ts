/** Something of the farm that a notebook may name. */
export interface Named {
  readonly id: string
  readonly name: string
}

/** A name as it is compared: small letters without accents, words alone. */
export function plainName(name: string): string {
  return name
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
}

const singular = (name: string) =>
  name
    .replace(/ies$/, 'y')
    .replace(/(o|s|x|ch|sh)es$/, '$1')
    .replace(/([^s])s$/, '$1')

/** The one that a name means: the same id or name, or the same but for accents, case and a plural. Null where none or several do. */
export function namedBy<N extends Named>(told: string, known: readonly N[]): N | null {
  const exact = known.filter(({ id, name }) => id === told || name === told)
  if (exact.length === 1) return exact[0]!
  const wanted = plainName(told)
  const same = known.filter(({ id, name }) => plainName(name) === wanted || plainName(id) === wanted)
  if (same.length === 1) return same[0]!
  if (same.length > 1) return null
  const alike = known.filter(({ name }) => singular(plainName(name)) === singular(wanted))
  return alike.length === 1 ? alike[0]! : null
}

const SUGGESTED = 5

/** Those whose names are likest, the likest first: by letters in common and by how few must be changed. */
export function suggestionsFor<N extends Named>(told: string, known: readonly N[]): readonly N[] {
  const wanted = plainName(told)
  return known
    .map((one) => ({ one, far: farness(wanted, plainName(one.name)) }))
    .filter(({ far }) => far <= 0.6)
    .sort((a, b) => a.far - b.far)
    .slice(0, SUGGESTED)
    .map(({ one }) => one)
}

/** 0 for the same, 1 for nothing in common: letters to be changed over the longer length; less where one holds the other. */
function farness(a: string, b: string): number {
  if (a === '' || b === '') return 1
  const far = changesBetween(a, b) / Math.max(a.length, b.length)
  const holds =
    a.split(' ').some((word) => word.length > 2 && b.split(' ').includes(word)) || (a.length > 2 && b.includes(a))
  return holds ? Math.min(far, 0.3) : far
}

/** Letters to be put in, taken out, changed or swapped with their neighbour (optimal string alignment distance). */
export function changesBetween(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)]
  for (let i = 1; i <= a.length; i++) {
    const row = [i]
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1
      let least = Math.min(rows[i - 1]![j]! + 1, row[j - 1]! + 1, rows[i - 1]![j - 1]! + same)
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, rows[i - 2]![j - 2]! + 1)
      row.push(least)
    }
    rows.push(row)
  }
  return rows[a.length]![b.length]!
}
