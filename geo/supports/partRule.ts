/** What a part's rule counts by. `m of line` is the run's length for each of the system's lines, `m2` the leafed side. */
export type RuleBase = 'run' | 'end' | 'line' | 'post' | 'plant' | 'tie' | 'm' | 'm of line' | 'm2'

/** How a part is told: by the piece, by length or by area. */
export type PartUnit = 'piece' | 'm' | 'm2'

/** How many of a part a run needs: `amount` for every `every` of `per` (null: in proportion), and `plus` once a run. */
export interface PartRule {
  readonly amount: number
  readonly unit: PartUnit
  readonly per: RuleBase
  readonly every: number | null
  readonly plus: number
}

const NUMBER = String.raw`(\d+(?:[.,]\d+)?)`
const RULE = new RegExp(
  `^${NUMBER}(?: (m|m2|m²))? per (?:${NUMBER} )?(runs?|ends?|lines?|posts?|plants?|ties?|m of line|m|m2|m²)(?: ([+-]) ${NUMBER})?$`,
)
const BASES: Readonly<Record<string, RuleBase>> = { 'm²': 'm2', m2: 'm2', m: 'm', 'm of line': 'm of line' }

/**
 * Reads a rule such as `2 per run`, `1 per end`, `1 per 1.5 m + 1`, `1 per 3 plants + 1`, `4 per post`, `1.05 m per m of
 * line`, `1 m2 per m2`. Null where it is written otherwise: then nothing can be counted by it.
 */
export function readPartRule(text: string): PartRule | null {
  const match = RULE.exec(text.trim().replace(/\s+/g, ' ').toLowerCase())
  if (!match) return null
  const [, amount, unit, every, per, sign, plus] = match
  const everyNumber = every === undefined ? null : numberOf(every)
  if (everyNumber === 0) return null
  return {
    amount: numberOf(amount!),
    unit: unit === undefined ? 'piece' : unit === 'm' ? 'm' : 'm2',
    per: BASES[per!] ?? (per!.replace(/s$/, '') as RuleBase),
    every: everyNumber,
    plus: plus === undefined ? 0 : numberOf(plus) * (sign === '-' ? -1 : 1),
  }
}

/** The forms of a rule, for the person who writes one. */
export const RULE_FORMS: readonly string[] = [
  '2 per run',
  '1 per end',
  '1 per 1.5 m + 1',
  '1 per 3 plants + 1',
  '3 per plant',
  '4 per post',
  '1 per line',
  '1.05 m per m of line',
  '1.1 m per m',
  '1 m2 per m2',
  '0.2 m per tie',
]

const numberOf = (text: string) => Number(text.replace(',', '.'))
