import { useSignalEffect } from '@preact/signals'
import { SUPPORT_HEIGHT_M } from '../../../geo/sun/caster.ts'
import { Figure } from '../../ui/Figure.tsx'
import { Progress } from '../../ui/Progress.tsx'
import { showDay } from '../show/dates.ts'
import { showCount, showNumber } from '../show/figures.ts'
import { askCasters, casters, sitingStale } from '../state/siting.ts'
import { on } from '../state/where.ts'
import { compassPoint, daySun, showFarmClock } from './daySun.ts'
import { assumedHeights } from './sunWords.ts'

/** The sun at the time shown, what throws shadows, and what can't for want of a height. */
export function Shadows() {
  useSignalEffect(() => {
    if (sitingStale.value >= 0) void askCasters(on.value)
  })
  const now = daySun.value
  if (!now)
    return (
      <p class="first-steps">
        <strong>There is no sun to reckon with.</strong> The farm has no ground yet, or the sun does not rise on{' '}
        {showDay(on.value)}: draw a field on the Ground sheet, or drag the season strip to another day.
      </p>
    )
  const told = casters.value?.told
  if (!told) return <Progress doing="Reading what throws shadows" />
  const { altitudeDeg, azimuthDeg } = now.sun
  const nothing = told.supports.length + told.trees.length + told.structures.length === 0
  return (
    <>
      <Figure
        value={showNumber(altitudeDeg, 0)}
        unit="°"
        from="The sun’s place by SunCalc after Meeus, held to NREL’s published values; a thing of height h throws a shadow h / tan(altitude) long on flat ground. Crowns are taken as solid from the ground up and grown to the day, supports as walls in full leaf, so a young or pruned row shades less than is drawn."
      >
        is how high the sun stands on {showDay(on.value)} at {showFarmClock(now.atMs)}, in the{' '}
        {compassPoint(azimuthDeg)} ({showNumber(azimuthDeg, 0)}° from north).{' '}
        {now.high
          ? `What is one metre high throws a shadow of ${showNumber(1 / Math.tan((altitudeDeg * Math.PI) / 180), 1)} m.`
          : 'It stands lower than 5°: shadows cross the whole farm and are not drawn.'}
      </Figure>
      <section aria-label="What throws shadows">
        <h2>What throws shadows</h2>
        {nothing ? (
          <p class="first-steps">
            <strong>Nothing on the farm throws a shadow on this day.</strong> Put up a support on the Supports sheet, or
            draw a tree with its height on the Ground sheet.
          </p>
        ) : (
          <p>
            {showCount(told.trees.length)} crowns of trees, the supports that stand on this day
            {told.structures.length > 0 ? ', and structures whose height is told' : ''}.{' '}
            {assumedHeights(told, SUPPORT_HEIGHT_M).join(' ')}
          </p>
        )}
        {told.withoutHeight.length > 0 && (
          <p class="note">
            Without a shadow, as their height is not told: {told.withoutHeight.join(', ')}. Give it on their card.
          </p>
        )}
      </section>
    </>
  )
}
