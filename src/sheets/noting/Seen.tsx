import { EMPHASIS } from '../../map/theme/theme.ts'
import { sheet } from '../state/where.ts'

/** The legend's line for things seen, where the sheet's map shows them: the cross that marks them. */
export function Seen() {
  if (!EMPHASIS[sheet.value].observations) return null
  return (
    <p class="legend-line">
      <svg width="34" height="14" viewBox="0 0 34 14" aria-hidden="true">
        <path d="M12 2l10 10M22 2l-10 10" class="mark-seen" />
      </svg>
      <span>something seen within a year</span>
    </p>
  )
}
