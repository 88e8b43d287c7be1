import { spreadsheetCsv } from '../../../geo/notebook/spreadsheetCell.ts'
import type { SitingPlan } from '../../desk/siting/sitingDoor.ts'
import { saveFile } from '../frame/saveFile.ts'
import { bedName, sideWords } from './rowLines.ts'

/** Saves what a plan has climbing where as CSV. */
export function saveRows(plan: SitingPlan): void {
  const [first = ''] = Object.keys(plan.cost.by_year)
  const csv = rowsCsv(plan, { bedName, sideWords })
  saveFile(`rows-${first}.csv`, new Blob([csv], { type: 'text/csv' }))
}

/** How beds and their sides are told. */
export interface PlaceWords {
  readonly bedName: (bed: string) => string
  readonly sideWords: typeof sideWords
}

/**
 * A line for each row and year in which something climbs, along permanent supports and along those of one season; of a
 * row that nothing climbs one line without a year. Lengths in metres whatever the units shown.
 */
export function rowsCsv(plan: Pick<SitingPlan, 'rows' | 'one_season'>, { bedName, sideWords }: PlaceWords): string {
  const byYear = (years: Readonly<Record<string, string>>) =>
    Object.keys(years).length === 0 ? [[null, null]] : Object.entries(years).map(([year, name]) => [Number(year), name])
  return spreadsheetCsv(
    ['support', 'bed', 'side', 'length_m', 'built', 'year', 'family'],
    [
      ...plan.rows.flatMap(({ bed, side, length_m: m, built, stands, years }) =>
        byYear(years).map((of) => [
          'permanent',
          bedName(bed),
          sideWords(bed, side),
          m,
          stands ? 'stands' : built,
          ...of,
        ]),
      ),
      ...plan.one_season.flatMap(({ bed, years }) =>
        byYear(years).map((of) => ['one season', bedName(bed), null, null, null, ...of]),
      ),
    ],
  )
}
