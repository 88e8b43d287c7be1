import type { BringPreview } from '../../desk/door.ts'
import { Mark } from '../../ui/Mark.tsx'

const MARKS = [
  { as: 'kept', mark: 'mark-brought-kept', words: 'would be kept' },
  { as: 'leftOut', mark: 'mark-brought-left-out', words: 'would be left out' },
  { as: 'notTaken', mark: 'mark-brought-not-taken', words: 'not taken' },
] as const

/** How the map shows what the file holds, and how much of it it can't show. */
export function BroughtMarks({ shapes, undrawn }: Pick<BringPreview, 'shapes' | 'undrawn'>) {
  const shown = MARKS.filter(({ as }) => shapes[as].length > 0)
  const untold = [
    undrawn.placeless > 0 && `${undrawn.placeless.toLocaleString()} without a place that could be drawn`,
    undrawn.beyond > 0 && `${undrawn.beyond.toLocaleString()} beyond the most that are drawn at a time`,
  ].filter((words) => words !== false)
  if (shown.length + untold.length === 0) return null
  return (
    <section class="brought-marks" aria-label="On the map">
      {shown.map(({ as, mark, words }) => (
        <Mark key={as} of={mark} round={shapes[as].every(({ type }) => /Point$/.test(type))}>
          {words} ({shapes[as].length.toLocaleString()})
        </Mark>
      ))}
      {untold.length > 0 && <p class="hint">Not on the map: {untold.join('; ')}.</p>}
    </section>
  )
}
