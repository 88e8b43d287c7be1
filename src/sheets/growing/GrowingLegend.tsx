import { EMPHASIS } from '../../map/theme/theme.ts'
import { Mark } from '../../ui/Mark.tsx'
import { Seen } from '../noting/Seen.tsx'
import { sheet } from '../state/where.ts'

/** What the lines of a sheet of plantings mean: of Growing, and of Picking, which shows less. */
export function GrowingLegend() {
  return (
    <section class="legend" aria-label="Legend">
      <Mark of="mark-standing">planted on the day</Mark>
      <Mark of="mark-planned">planned: to be set out after today</Mark>
      <Mark of="mark-bed">bed</Mark>
      {EMPHASIS[sheet.value].dressings && <Mark of="mark-dressed">dressed within a year</Mark>}
      <Seen />
      <Mark of="mark-reach" round>
        how far juglone roots may reach
      </Mark>
    </section>
  )
}
