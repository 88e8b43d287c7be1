import type { DeskFault } from '../../desk/door.ts'
import type { SitedRow, SitingPlan } from '../../desk/siting/sitingDoor.ts'
import { showCount } from '../show/figures.ts'
import { newId } from '../state/newId.ts'
import { need } from '../state/sitingPlan.ts'
import { doEdits, type Edits } from '../state/steps.ts'
import { on } from '../state/where.ts'
import { bedName, rowLine, rowStands, sideWords } from './rowLines.ts'

type Row = Pick<SitedRow, 'bed' | 'side'>

/** Rows of a plan that are still to be built on the day shown, of the first year that has any; null where there are none. */
export function nextToBuild(plan: SitingPlan): { readonly year: number; readonly rows: readonly SitedRow[] } | null {
  const left = plan.rows.filter(({ stands, bed, side }) => !stands && rowLine(bed, side) && !rowStands(bed, side))
  if (left.length === 0) return null
  const year = Math.min(...left.map(({ built }) => built))
  return { year, rows: left.filter(({ built }) => built === year) }
}

/** Puts permanent supports of the need's system up along rows on the day shown, as one step; the fault where they can't be kept. */
export async function buildRows(rows: readonly Row[]): Promise<DeskFault | null> {
  const system = need.value?.system
  const [first] = rows
  if (!system || !first) return null
  const edits = rows.flatMap(({ bed, side }): Edits => {
    const line = rowLine(bed, side)
    if (!line) return []
    const geom = { type: 'LineString' as const, coordinates: line.map((at) => [...at]) }
    const told = { put_up: on.value, taken_down: null, permanent: true, height_m: null, note: null }
    return [{ do: 'add', kind: 'supports', record: { id: newId(), extra: {}, system, ...told, geom } }]
  })
  const what =
    rows.length === 1
      ? `the support in ${bedName(first.bed)}, ${sideWords(first.bed, first.side)}`
      : `${showCount(rows.length)} permanent supports`
  const reply = await doEdits(`Build ${what}`, edits)
  return reply.ok ? null : reply.fault
}
