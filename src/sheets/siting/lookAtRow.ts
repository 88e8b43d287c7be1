import { choose } from '../state/chosen.ts'
import { showPane } from '../state/pane.ts'

/** Opens a bed's card from a table of the plan, which stays in sight: why its places were taken or left stands there. */
export function lookAtRow(bed: string): void {
  void choose({ kind: 'beds', id: bed })
  showPane('table')
}
