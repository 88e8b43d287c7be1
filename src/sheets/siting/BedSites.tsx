import { useEffect, useRef, useState } from 'preact/hooks'
import type { Side } from '../../../geo/supports/sideLine.ts'
import { SIDES } from '../../../geo/supports/sideLine.ts'
import type { DeskFault } from '../../desk/door.ts'
import { Chips } from '../../ui/Chips.tsx'
import { showDay } from '../show/dates.ts'
import { need, planLookedAt, reasonsLookedAt, wish } from '../state/sitingPlan.ts'
import { on } from '../state/where.ts'
import { buildRows } from './buildRows.ts'
import { type RowWish, wishOf } from './needDraft.ts'
import { bedName, rowStands, sideWords } from './rowLines.ts'

/**
 * The three places of a bed where a support could stand: why each was taken or left, what is asked of it, and building
 * it; that which the plan takes first. Comes into sight when another bed is tapped.
 */
export function BedSites({ bed }: { readonly bed: string }) {
  const here = useRef<HTMLElement>(null)
  useEffect(() => here.current?.scrollIntoView({ block: 'nearest' }), [bed])
  const taken = planLookedAt.value?.rows.find((one) => one.bed === bed)?.side
  const sides = [...SIDES].sort((a, b) => Number(b === taken) - Number(a === taken))
  return (
    <section ref={here} class="bed-sites" aria-label="Places in the bed">
      <h2>Places in {bedName(bed)}</h2>
      {sides.map((side) => (
        <SiteOf key={side} bed={bed} side={side} />
      ))}
      <p class="hint">What you ask of a row is kept with the need; choose the rows again to see what it does.</p>
    </section>
  )
}

function SiteOf({ bed, side }: { readonly bed: string; readonly side: Side }) {
  const [fault, setFault] = useState<DeskFault | null>(null)
  if (!need.value) return null
  const row = { bed, side }
  const why = reasonsLookedAt.value.find((one) => one.bed === bed && one.side === side)?.why ?? null
  const taken = planLookedAt.value?.rows.find((one) => one.bed === bed && one.side === side)
  const planned = taken !== undefined && !taken.stands
  const stands = planned && rowStands(bed, side)
  const now = wishOf(need.value, row)
  return (
    <div class="site">
      <h3>{sideWords(bed, side)}</h3>
      {why && <p>{why}</p>}
      <Chips
        label={`What is asked of the ${sideWords(bed, side)}`}
        quietLabel
        options={[
          { value: 'fix', words: 'Take it' },
          { value: 'prefer', words: 'Rather this' },
          { value: 'forbid', words: 'Not here' },
        ]}
        chosen={now ? [now] : []}
        onTap={(value) => wish(row, now === value ? null : (value as RowWish))}
      />
      {planned && stands && (
        <p>A permanent support stands here on {showDay(on.value)}: choose the rows again to plan from it.</p>
      )}
      {planned && !stands && (
        <p data-print="no">
          <button type="button" onClick={() => void buildRows([row]).then(setFault)}>
            It is built: put it up on {showDay(on.value)}
          </button>
        </p>
      )}
      {fault && (
        <p class="fault" role="alert">
          {fault.detail}
        </p>
      )}
    </div>
  )
}
