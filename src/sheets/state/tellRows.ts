import type { RowProps } from '../../../geo/layers/layer.ts'
import type { ToldRow } from '../../../geo/stock/whereWords.ts'

type Row = Pick<RowProps, 'id' | 'bed' | 'name' | 'side'>

/**
 * Rows by id as they are told, by name or side; one that has neither, or shares it with another of its bed, by where it
 * comes among its bed's too. Rows are given in the farm's order.
 */
export function tellRows(rows: readonly Row[]): ReadonlyMap<string, ToldRow> {
  const ofBed = new Map<string, Row[]>()
  for (const row of rows) ofBed.set(row.bed, [...(ofBed.get(row.bed) ?? []), row])
  const told = new Map<string, ToldRow>()
  for (const all of ofBed.values())
    all.forEach(({ id, name, side }, i) => {
      const words = name ?? side
      const alike = all.filter((other) => (other.name ?? other.side) === words).length > 1
      const nth = `row ${i + 1}`
      told.set(id, { name: words === null ? nth : alike ? `${words}, ${nth}` : words, side })
    })
  return told
}
