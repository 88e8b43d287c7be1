import { useSignalEffect } from '@preact/signals'
import { Figure } from '../../ui/Figure.tsx'
import { Progress } from '../../ui/Progress.tsx'
import { densityFigure, landFigure, massFigure, showCount, told } from '../show/figures.ts'
import { openFarm, units } from '../state/farm.ts'
import { askWeeks } from '../state/weeks.ts'
import { season } from '../state/where.ts'
import {
  askSmooth,
  askYield,
  askYieldPoints,
  smoothM,
  smoothShownM,
  stopYieldPoints,
  yieldBusy,
  yielded,
  yieldFault,
  yieldShown,
} from '../state/yields.ts'
import { groundWords, ofWords, seasonsWords } from './groundWords.ts'
import { pointsAsked, surfaceAsked } from './surfaceAsked.ts'
import { YieldAsked } from './YieldAsked.tsx'
import { YieldMore } from './YieldMore.tsx'
import { yieldGrounds } from './yieldGrounds.ts'

/** The Yield sheet's table: what the season gave, where it fell short, and bed by bed. */
export function YieldPanel() {
  useSignalEffect(() => {
    void askYield(surfaceAsked())
  })
  useSignalEffect(() => {
    const of = yielded.value
    if (of && smoothShownM.value !== smoothM.value) void askSmooth({ of, smoothM: smoothM.value })
  })
  useSignalEffect(() => {
    if (yieldShown.value === 'points') void askYieldPoints(pointsAsked())
    return stopYieldPoints
  })
  useSignalEffect(() => {
    for (const one of [...(openFarm.value?.seasons ?? []), season.value]) void askWeeks(one)
  })
  return (
    <>
      <YieldAsked />
      <YieldTold />
    </>
  )
}

function YieldTold() {
  const view = yielded.value
  if (yieldFault.value)
    return (
      <p class="fault" role="alert">
        {yieldFault.value.detail}
      </p>
    )
  if (!view) return <Progress doing="Reckoning the yield" />
  if (view.totalKg === 0)
    return (
      <p class="first-steps">
        <strong>Nothing is recorded as picked: {groundWords(view.seasons, view.of)}.</strong>{' '}
        {view.of === null ? (
          <>
            Choose another season at the end of the strip, or bring in an archive with <code>picks.csv</code>.
          </>
        ) : (
          'Choose another crop or season.'
        )}
      </p>
    )
  return (
    <div aria-busy={yieldBusy.value}>
      <Figure
        {...massFigure(view.totalKg, units.value)}
        from={`Each pick’s quantity times its container’s weight, laid evenly over the ground it was told of: its planting’s strip, else its bed, else a circle of 1 m. The surface is gathered on cells of ${view.cellM} m clipped to the beds; smoothed or not, its cells add up to this figure.`}
      >
        {view.of !== null && `of ${ofWords(view.of)} `}picked in {seasonsWords(view.seasons)}
        {view.kgPerM2 !== null && (
          <>
            , {told(densityFigure(view.kgPerM2, units.value))}
            {view.seasons.length > 1 && ' a season'} over the {showCount(view.bedsPicked)} beds that were picked
          </>
        )}{' '}
        (all beds: {told(landFigure(view.areaM2, units.value))}). {yieldGrounds.value}
      </Figure>
      <YieldMore view={view} />
      {view.notes.length > 0 && (
        <section aria-label="To be borne in mind">
          <h2>To be borne in mind</h2>
          <ul class="notes">
            {view.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </section>
      )}
    </div>
  )
}
