import { Mark } from '../../ui/Mark.tsx'
import { Seen } from '../noting/Seen.tsx'
import { sheet } from '../state/where.ts'

/** What the lines of a sheet of supports mean. */
export function SupportsLegend() {
  return (
    <section class="legend" aria-label="Legend">
      <Mark of="mark-unheld">climbs without a support</Mark>
      <Mark of="mark-held">climbs, held</Mark>
      <Mark of="mark-season">support for a season</Mark>
      <Mark of="mark-permanent">support left up</Mark>
      {sheet.value === 'supports' && (
        <Mark of="mark-post" round>
          post; an end post is filled
        </Mark>
      )}
      <Seen />
    </section>
  )
}
