import { useSignalEffect } from '@preact/signals'
import { zoneFactorWords } from '../../../geo/yield/near/words.ts'
import { From } from '../../ui/From.tsx'
import { Progress } from '../../ui/Progress.tsx'
import {
  accuracyFigure,
  areaFigure,
  lengthFigure,
  massFigure,
  showNumber,
  told,
  wholeLengthFigure,
} from '../show/figures.ts'
import type { Yielded, YieldedZone } from '../state/door.ts'
import { units } from '../state/farm.ts'
import { farmMap } from '../state/mapHandle.ts'
import { measured } from '../state/shown.ts'
import { on } from '../state/where.ts'
import { yieldGround } from '../state/yieldGround.ts'
import { askYieldMore, yieldMoreFault, yieldNear } from '../state/yieldMore.ts'
import { chosenZone, yieldStale } from '../state/yields.ts'
import { boundsOfArea } from './boundsOfArea.ts'
import { liesNear } from './liesNear.ts'
import { chooseZone } from './onMap.ts'

/** Low-yield zones, the greatest shortfall first; the chosen one tells what lies near it. */
export function ZoneList({ view }: { readonly view: Yielded }) {
  if (view.tooLittle !== null)
    return (
      <section aria-label="Low-yield zones">
        <h2>Low-yield zones</h2>
        <p>
          <strong>Too little to tell.</strong> {view.tooLittle}
        </p>
      </section>
    )
  return (
    <section aria-label="Low-yield zones">
      <h2>Low-yield zones</h2>
      {view.zones.length === 0 && <p>None: no stretch of bed is colder than chance would put there.</p>}
      <ol class="zones">
        {view.zones.map((zone) => (
          <Zone key={zone.id} zone={zone} />
        ))}
      </ol>
      <From about="a zone">
        Beds are cut into stretches of about {told(lengthFigure(view.stretchM, units.value))}. A stretch’s index is what
        it gave over what the same crops gave across the farm on as much ground. Getis and Ord’s Gi* tells how far a
        stretch and those within {told(lengthFigure(view.bandM, units.value))} of it lie from chance; Benjamini and
        Hochberg’s method keeps false finds to {showNumber(view.alpha * 100, 0)} in 100. Neighbouring cold stretches
        make a zone. Shortfall: expected less picked; in row, the metres that would give it at what was expected of the
        zone’s own plantings.
      </From>
    </section>
  )
}

function Zone({ zone }: { readonly zone: YieldedZone }) {
  const open = chosenZone.value === zone.id
  const names = new Map(measured.value?.beds.map(({ id, name }) => [id, name]))
  const choose = () => {
    chooseZone(open ? null : zone.id)
    if (!open) farmMap.value?.fitTo(boundsOfArea(zone.outline), { top: 120, right: 120, bottom: 220, left: 120 })
  }
  return (
    <li class={open ? 'chosen' : ''}>
      <button type="button" class="zone-head" aria-expanded={open} onClick={choose}>
        <span class="zone-short">{told(massFigure(zone.shortfallKg, units.value))}</span>
        <span>
          short of par, what {told(wholeLengthFigure(zone.shortfallRowM, units.value))} of row would give, on{' '}
          {told(areaFigure(zone.areaM2, units.value))}, index {showNumber(zone.index, 2)}
        </span>
      </button>
      <p class="zone-beds">
        {zone.beds.length === 1 ? 'Bed' : 'Beds'} {zone.beds.map((id) => names.get(id) ?? id).join(', ')}
      </p>
      {open && <WhatLiesNear zone={zone} />}
    </li>
  )
}

function WhatLiesNear({ zone }: { readonly zone: YieldedZone }) {
  useSignalEffect(() => {
    void askYieldMore({ part: 'near', ground: yieldGround.value, on: on.value, step: yieldStale.value })
  })
  const names = new Map(measured.value?.beds.map(({ id, name }) => [id, name]))
  const factors = yieldNear.value?.zones.find((one) => one.zone === zone.id)?.factors ?? []
  const long = (metres: number) => told(accuracyFigure(metres, units.value))
  return (
    <div class="near">
      <h3>What lies near</h3>
      <ul>
        {liesNear(zone, names, units.value).map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      {!yieldNear.value && !yieldMoreFault.value && <Progress doing="Holding it against the other ground" />}
      {factors.length > 0 && (
        <>
          <h3>Its plots against all others</h3>
          <ul>
            {factors.map((factor) => (
              <li key={factor.id}>{zoneFactorWords(factor, long)}</li>
            ))}
          </ul>
        </>
      )}
      <p class="hint">Nearness is not cause.</p>
    </div>
  )
}
