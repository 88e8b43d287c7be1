import { Mark } from '../../ui/Mark.tsx'

/** What the lines of the Ground sheet mean. */
export function GroundLegend() {
  return (
    <section class="legend" aria-label="Legend">
      <Mark of="mark-field">field</Mark>
      <Mark of="mark-bed">bed; dashed when not there on the day</Mark>
      <Mark of="mark-canopy" round>
        canopy; dashed when assumed
      </Mark>
      <Mark of="mark-reach" round>
        how far a juglone source’s roots may reach
      </Mark>
    </section>
  )
}
