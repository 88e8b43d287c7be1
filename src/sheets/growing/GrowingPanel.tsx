import { useEffect } from 'preact/hooks'
import { Figure } from '../../ui/Figure.tsx'
import { showDay } from '../show/dates.ts'
import { wholeLengthFigure } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { askPlantings, bedOfPlanting } from '../state/plantings.ts'
import { layers, measured } from '../state/shown.ts'
import { on } from '../state/where.ts'
import { StandingByBed } from './StandingByBed.tsx'
import { StandingByCrop } from './StandingByCrop.tsx'
import { standingOf } from './standingOf.ts'

/** The Growing sheet's table: what stands on the day, by crop and by bed. */
export function GrowingPanel() {
  useEffect(() => void askPlantings(), [])
  if (!layers.value || !measured.value) return null
  const pieces = layers.value.stretches.features.map(({ properties }) => properties)
  const standing = standingOf(pieces, bedOfPlanting.value)
  if (standing.length === 0)
    return (
      <p class="first-steps">
        <strong>Nothing is recorded as standing on {showDay(on.value)}.</strong> Drag the season strip to another day,
        or bring in an archive with <code>plantings.csv</code>: what it holds is shown here by crop and bed.
      </p>
    )
  const total = standing.reduce((sum, { lengthM }) => sum + lengthM, 0)
  const crops = new Set(standing.map(({ crop }) => crop)).size
  return (
    <>
      <Figure
        {...wholeLengthFigure(total, units.value)}
        from="Each planting’s stretch of row, from where to where it was told, or the whole row where it was not; the bed’s long middle where only a bed was told. Counted from the day it is set out until the day it is cleared."
      >
        of row stands planted, with {crops} {crops === 1 ? 'crop' : 'crops'}
      </Figure>
      <StandingByCrop standing={standing} />
      <StandingByBed standing={standing} />
    </>
  )
}
