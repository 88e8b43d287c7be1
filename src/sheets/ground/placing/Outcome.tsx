import { From } from '../../../ui/From.tsx'
import { lengthFigure, told } from '../../show/figures.ts'
import { units } from '../../state/farm.ts'
import { badMark } from './badMark.ts'
import type { Placed } from './placeOf.ts'
import { outcome, placing, read } from './state.ts'

/** How well the picture fits, large; the worst point in words; or why it cannot be placed yet. */
export function Outcome() {
  const now = outcome.value
  if (!now) return null
  if (typeof now === 'string') return <p class="place-why">{now}</p>
  const { fit, placed } = now
  const length = (m: number) => told(lengthFigure(m, units.value))
  const count = fit.points.length
  const mean = fit.rmseM === null ? null : lengthFigure(fit.rmseM, units.value)
  return (
    <div class="place-outcome">
      {fit.isChecked && mean ? (
        <>
          <p class="figure-value">
            {mean.value}
            <span class="figure-unit"> {mean.unit}</span>
          </p>
          <p class="figure-grounds">root mean square error of {count} points</p>
          <p class={badMark.value === null ? '' : 'amiss'}>{worstWords(now, length)}</p>
        </>
      ) : (
        <p class="place-why">
          {count === 0
            ? `It lies by ${sourceWords()} alone.`
            : 'Nothing checks these points yet: one more tells how good they are.'}
        </p>
      )}
      <From about="this error">
        The root of the mean squared distance between where the fit puts the points and where they were told to lie
        (√(Σ(dx² + dy²) / n)), on the ground. “By the others” is a point’s distance from where the fit of all other
        points puts it. A pixel is {length(placed.groundSampleM)} wide on the ground.
      </From>
    </div>
  )
}

/** What a picture without points lies by. */
function sourceWords(): string {
  if (read.value?.tapeIds.length) return 'its taped distance and the rough place'
  if (placing.value?.guess.height.trim()) return 'the height it was taken from and the rough place'
  return 'what it tells of itself, or where it lay before,'
}

function worstWords({ fit }: Placed, length: (m: number) => string): string {
  if (fit.worst === null) return ''
  const ids = placing.value?.marks.map(({ id }) => id) ?? []
  const number = ids.indexOf(read.value?.pointIds[fit.worst] ?? '') + 1
  const { offM, leftOutM } = fit.points[fit.worst]!
  const others = leftOutM === null ? '' : `; the others would put it ${length(leftOutM)} away`
  const again =
    badMark.value === null || fit.withoutWorstM === null
      ? ''
      : ` Look at it again: without it they agree to ${length(fit.withoutWorstM)}.`
  return `Point ${number} fits worst: ${length(offM)} off${others}.${again}`
}
