import { Mark } from '../../ui/Mark.tsx'
import { Seen } from '../noting/Seen.tsx'

/** What the lines of the Ground sheet mean. */
export function GroundLegend() {
  return (
    <section class="legend" aria-label="Legend">
      <Mark of="mark-field">field</Mark>
      <Mark of="mark-bed">bed (dashed: not there on the day)</Mark>
      <Mark of="mark-dressed">bed dressed within a year</Mark>
      <Seen />
      <Mark of="mark-canopy" round>
        canopy (dashed: assumed)
      </Mark>
      <Mark of="mark-reach" round>
        how far juglone roots may reach
      </Mark>
    </section>
  )
}
