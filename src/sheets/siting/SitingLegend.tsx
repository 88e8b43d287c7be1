import { rampStops } from '../../map/theme/ramps.ts'
import { Mark } from '../../ui/Mark.tsx'
import { Ramp } from '../../ui/Ramp.tsx'
import { showNumber } from '../show/figures.ts'
import { canopies, sitingShown, yearsOn } from '../state/siting.ts'
import { planLookedAt, planYear } from '../state/sitingPlan.ts'
import { daySun, showFarmClock } from './daySun.ts'
import { mostLost } from './onMap.ts'

/** What the Siting sheet's lines and tones mean. */
export function SitingLegend() {
  return (
    <section class="legend" aria-label="Legend">
      {sitingShown.value === 'plan' && <PlanMarks />}
      {sitingShown.value === 'shadows' && <ShadowMarks />}
      {sitingShown.value === 'lost' && <LostMarks />}
      {sitingShown.value === 'canopies' && <CanopyMarks />}
      <Mark of="mark-season">support for a season</Mark>
      <Mark of="mark-permanent">support left up</Mark>
    </section>
  )
}

function ShadowMarks() {
  const now = daySun.value
  return (
    <>
      {now && <h2>Shadows at {showFarmClock(now.atMs)}</h2>}
      <Mark of="mark-shade" round>
        in shadow
      </Mark>
    </>
  )
}

function LostMarks() {
  const most = mostLost.value
  if (most === null) return null
  return (
    <>
      <h2>Direct sun lost</h2>
      <div class="legend-ramp">
        <Ramp stops={rampStops({ of: 'amount', most })} />
        <p>
          {['0', showNumber(most / 2, 0), `${showNumber(most, 0)} h`].map((word) => (
            <span key={word}>{word}</span>
          ))}
        </p>
      </div>
    </>
  )
}

function CanopyMarks() {
  const first = canopies.value?.years[0]
  if (first === undefined) return null
  return (
    <>
      <h2>In {first + yearsOn.value}</h2>
      <Mark of="mark-canopy-then" round>
        canopy
      </Mark>
      <Mark of="mark-reach-then" round>
        how far juglone roots may reach
      </Mark>
      <Mark of="mark-under">bed with canopy over it</Mark>
    </>
  )
}

function PlanMarks() {
  const [plan, year] = [planLookedAt.value, planYear.value]
  return (
    <>
      {plan && year !== null && (
        <>
          <h2>The plan in {year}</h2>
          <Mark of="mark-chosen">permanent support, with what climbs it</Mark>
          {plan.rows.some(({ stands, built }) => !stands && built > year) && (
            <Mark of="mark-later">the same, built in the year told</Mark>
          )}
          {plan.one_season.some(({ years }) => years[year]) && (
            <Mark of="mark-one-season">bed with a support of that season, likewise</Mark>
          )}
        </>
      )}
      <Mark of="mark-candidate">where one could stand</Mark>
    </>
  )
}
