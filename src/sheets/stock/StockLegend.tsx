import { Mark } from '../../ui/Mark.tsx'
import { Seen } from '../noting/Seen.tsx'

/** What the Stock sheet's lines and hatches mean. */
export function StockLegend() {
  return (
    <section class="legend" aria-label="Legend">
      <p class="legend-line">
        <svg width="34" height="14" viewBox="0 0 34 14" aria-hidden="true">
          <path d="M1 1h32v12H1z" class="mark-bed" />
          <path d="M1 13L13 1M9 13L21 1M17 13L29 1M25 13l8-8M1 5l4-4" class="mark-hatch" />
        </svg>
        <span>stock in the ground: can’t be dug, nor get posts</span>
      </p>
      <Mark of="mark-standing">planted on the day</Mark>
      <Mark of="mark-bed">bed</Mark>
      <Seen />
    </section>
  )
}
