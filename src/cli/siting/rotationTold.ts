import type { RotationAnswer } from '../../../geo/rotation/rotate.ts'
import { table } from '../table.ts'

const CAUTION =
  'Returns are guidance: what soil-borne trouble asks for where you are is for the local advisory service. Evidence on juglone is disputed: walnuts are weighed, not judged.'

/** A rotation in words and tables. */
export function rotationTold({
  season,
  seasons,
  status,
  gap,
  groups,
  beds,
  short,
  crowded,
  returns,
}: RotationAnswer): string {
  const letters = new Map(groups.map(({ name, letter }) => [name, letter]))
  const years = seasons.map(String)
  const open = beds.filter((bed) => Object.keys(bed.years).length > 0 || bed.left === null)
  return `${[
    status === 'short'
      ? `Carried on from ${season}; not everything finds a bed every season.`
      : `Carried on from ${season}${status === 'optimal' ? ', proved the best by what was weighed' : `, at most ${(gap * 100).toFixed(1)} % from the best by what was weighed`}.`,
    table(
      ['', 'families', 'crops', 'm of bed'],
      groups.map(({ letter, name, crops, need_m: needM }) => [letter, name, crops.join(', '), needM]),
      1,
    ),
    table(
      ['bed', 'm', ...years],
      open.map((bed) => [
        bed.name,
        bed.length_m,
        ...years.map((year) => (bed.years[year] === undefined ? 'rests' : letters.get(bed.years[year]))),
      ]),
      1,
    ),
    ...(short.length > 0
      ? [
          table(
            ['season', 'finds no bed', 'm'],
            short.map(({ year, group, metres }) => [String(year), group, metres]),
            1,
          ),
        ]
      : []),
    ...crowded.map(
      ({ family, fills, room }) =>
        `${family} fills ${Math.round(100 * fills)} % of the beds; its return leaves room for ${Math.round(100 * room)} %.`,
    ),
    ...beds.flatMap(({ name, left }) => (left === null ? [] : [`${name}: ${left}.`])),
    ...returns.map(({ family, years: after, source }) => `${family} returns after ${after} years: ${source}.`),
    CAUTION,
  ].join('\n\n')}\n`
}
