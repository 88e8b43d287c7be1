import { Figure } from '../../ui/Figure.tsx'
import { showDay } from '../show/dates.ts'
import { seasonOfDay } from '../show/days.ts'
import { wholeLengthFigure } from '../show/figures.ts'
import { crops, varieties } from '../state/crops.ts'
import { seasonStartMonth, units } from '../state/farm.ts'
import { bedOfPlanting, plantings } from '../state/plantings.ts'
import { setOut } from '../state/settingOut.ts'
import { layers, measured } from '../state/shown.ts'
import { on, season, today } from '../state/where.ts'
import { comingIn } from './comingIn.ts'
import { StandingByBed } from './StandingByBed.tsx'
import { StandingByCrop } from './StandingByCrop.tsx'
import { StillToCome } from './StillToCome.tsx'
import { standingOf } from './standingOf.ts'
import { ToLookAt } from './ToLookAt.tsx'

/** What stands on the day shown, what is to be looked at again, and what is still to be set out. */
export function StandingView() {
  const pieces = layers.value?.stretches.features.map(({ properties }) => properties) ?? []
  const standing = standingOf(pieces, bedOfPlanting.value)
  const coming = comingIn(
    plantings.value ?? [],
    crops.value ?? [],
    varieties.value,
    on.value,
    (day) => seasonOfDay(day, seasonStartMonth.value) === season.value,
  )
  const begin = (
    <p class="deeds-quiet">
      <button type="button" onClick={() => setOut(null)}>
        Set something out
      </button>
    </p>
  )
  if (standing.length === 0 && coming.length === 0)
    return (
      <>
        <p class="first-steps">
          <strong>Nothing is recorded as standing on {showDay(on.value)}.</strong>{' '}
          {measured.value?.beds.length === 0
            ? 'Draw a bed and its rows on the Ground sheet first.'
            : 'Set something out here, or drag the season strip to another day.'}
        </p>
        {measured.value?.beds.length !== 0 && begin}
        <ToLookAt />
      </>
    )
  const total = standing.reduce((sum, { lengthM }) => sum + lengthM, 0)
  const kinds = new Set(standing.map(({ crop }) => crop)).size
  const planned = standing.filter(({ setOut }) => setOut > today.value).length
  return (
    <>
      <Figure
        {...wholeLengthFigure(total, units.value)}
        from="Each planting’s stretch of row, from where to where it was told, or the whole row where it was not; the bed’s long middle where only a bed was told. Counted from the day it is set out until the day it is cleared."
      >
        of row stands planted, with {kinds} {kinds === 1 ? 'crop' : 'crops'}
        {planned > 0 && `; ${planned} of ${standing.length} plantings are planned`}
      </Figure>
      {begin}
      <ToLookAt />
      <StandingByBed standing={standing} />
      <StillToCome coming={coming} />
      <StandingByCrop standing={standing} />
    </>
  )
}
