import type { NotebookPick } from '../../../../geo/notebook/notebook.ts'
import type { Edits } from '../../state/steps.ts'

/** The edits that keep a notebook's picks, each with the weight it was read with; one who had a pick had all of it. */
export function notebookEdits(picks: readonly NotebookPick[], newId: () => string): Edits {
  return picks.flatMap((pick): Edits => {
    const { on, planting, bed, lon, lat, quantity, unit, kgPerUnit, grade, picker, note, to, use } = pick
    const id = newId()
    const record = { id, on, planting, bed, lon, lat, quantity, unit, grade, picker, note, kg_per_unit: kgPerUnit }
    return [
      { do: 'add', kind: 'picks', record: { ...record, extra: {} } },
      ...(to === null
        ? []
        : ([{ do: 'add', kind: 'shares', record: { id: newId(), pick: id, to, part: 1, use, extra: {} } }] as const)),
    ]
  })
}
