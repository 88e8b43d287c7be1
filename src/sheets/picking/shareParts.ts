/** Who has a part (0–1) of a pick, and for what. */
export interface ShareLine {
  readonly to: string
  readonly part: number
  readonly use: string | null
}

/** Parts that are offered, with how they are said. */
export const PARTS: readonly (readonly [part: number, words: string])[] = [
  [1, 'all'],
  [3 / 4, '¾'],
  [2 / 3, '⅔'],
  [1 / 2, '½'],
  [1 / 3, '⅓'],
  [1 / 4, '¼'],
  [1 / 5, '⅕'],
  [1 / 8, '⅛'],
]

const EPSILON = 1e-9

export function sayPart(part: number): string {
  const known = PARTS.find(([one]) => Math.abs(one - part) < EPSILON)
  return known ? known[1] : `${Number((part * 100).toFixed(1))} %`
}

/** Everybody has as much as the others. */
export function evenly(lines: readonly ShareLine[]): readonly ShareLine[] {
  return lines.map((line) => ({ ...line, part: 1 / lines.length }))
}

/** True where everybody has as much as the others and nothing is left: such shares stay even when one more is added. */
export function isEven(lines: readonly ShareLine[]): boolean {
  return lines.every(({ part }) => Math.abs(part - 1 / lines.length) < EPSILON)
}

/** What the shares leave of the pick; below zero where they are more than the whole of it. */
export function leftOf(lines: readonly ShareLine[]): number {
  const left = 1 - lines.reduce((sum, { part }) => sum + part, 0)
  return Math.abs(left) < EPSILON ? 0 : left
}

/** Adds a person, or takes away one who is in: even shares stay even, others get what is left. */
export function toggled(lines: readonly ShareLine[], to: string, use: string | null): readonly ShareLine[] {
  const without = lines.filter((line) => line.to !== to)
  if (without.length < lines.length) return isEven(lines) ? evenly(without) : without
  const part = Math.max(0, leftOf(lines))
  return isEven(lines) || part === 0 ? evenly([...lines, { to, part: 0, use }]) : [...lines, { to, part, use }]
}

export function sayShares(lines: readonly ShareLine[]): string {
  return lines
    .map(({ to, part, use }) => `${part === 1 ? 'all' : sayPart(part)} to ${to}${use === null ? '' : ` for ${use}`}`)
    .join(', ')
}
