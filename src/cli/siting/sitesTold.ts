import type { SitingAnswer } from '../../../geo/siting/answer.ts'
import { table } from '../table.ts'

const CAUTION =
  'Before driving posts ask the local buried-services line, however shallow. Tensioned wire recoils: eye protection, gloves, never beyond the maker’s tension. Treated timber in soil contact may be barred. What people or a building depend on is for licensed practice and the local code. Evidence on juglone is disputed: walnuts are weighed, not judged.'

/** A choice of rows in words and tables. */
export function sitesTold(answer: SitingAnswer): string {
  const { status, gap, rows, cost, payback_year: payback, binding, others, notes, reasons, materials, lift } = answer
  const oneSeason = answer.one_season
  if (status === 'infeasible')
    return `${[
      'The need can’t be met as it stands.',
      table(
        ['limit', 'would have to give by'],
        binding.map(({ limit, by }) => [limit, by]),
      ),
      ...notes,
    ].join('\n\n')}\n`
  const years = Object.keys(cost.by_year)
  const taken = new Set(rows.map(({ bed, side }) => `${bed} ${side}`))
  return `${[
    rows.length === 0
      ? 'None yet: pulling every autumn costs less over these years.'
      : `${rows.length} permanent rows${status === 'optimal' ? ', proved the best' : `, at most ${(gap * 100).toFixed(1)} % from the best`}.`,
    ...(rows.length > 0
      ? [
          table(
            ['bed', 'side', 'm', 'built', ...years],
            rows.map((row) => [
              row.bed,
              row.side,
              row.length_m,
              String(row.built),
              ...years.map((year) => row.years[year] ?? ''),
            ]),
          ),
        ]
      : []),
    ...(oneSeason.length > 0
      ? [
          'Along supports of one season:',
          table(
            ['bed', ...years],
            oneSeason.map((one) => [one.bed, ...years.map((year) => one.years[year] ?? '')]),
          ),
        ]
      : []),
    ...(lift.length > 0
      ? [
          'Stock to lift first:',
          table(
            ['bed', 'row', 'lot', 'kind', 'plants', 'before'],
            lift.map((one) => [one.bed, one.row ?? '', one.lot, one.kind, one.count, String(one.before)]),
          ),
        ]
      : []),
    table(
      ['year', 'cost'],
      [...Object.entries(cost.by_year), ['all', cost.total], ['pulling every autumn', cost.instead_total]],
    ),
    table(
      ['year', 'for', 'part', 'unit', 'lasts', 'needed', 'new', 'cost'],
      materials.flatMap(({ year, parts, minutes, labour_cost: labour }) => [
        ...parts.map((one) => [
          String(year),
          one.use,
          one.part,
          one.unit,
          one.lasts_seasons === null ? 'used up' : String(one.lasts_seasons),
          one.needed,
          one.bought,
          one.cost,
        ]),
        [String(year), 'labour', '', 'min', '', minutes, null, labour],
      ]),
    ),
    ...(payback === null ? [] : [`Paid back by the end of ${payback}.`]),
    ...reasons
      .filter(({ bed, side }) => taken.has(`${bed} ${side}`))
      .map(({ bed, side, why }) => `${bed} ${side}: ${why}`),
    ...others.map(
      ({ how, rows: other, cost: of }) => `Or ${how}: ${other.length} rows, ${of.total.toFixed(2)} in all.`,
    ),
    ...notes,
    CAUTION,
  ].join('\n\n')}\n`
}
