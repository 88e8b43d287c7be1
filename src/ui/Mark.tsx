import type { ComponentChildren } from 'preact'

interface Props {
  /** The mark's class in the stylesheet, which draws it as the map does. */
  readonly of: string
  readonly round?: boolean
  readonly children: ComponentChildren
}

/** A line of a legend: the mark, and what it stands for. */
export function Mark({ of, round = false, children }: Props) {
  return (
    <p class="legend-line">
      <svg width="34" height="14" viewBox="0 0 34 14" aria-hidden="true">
        {round ? <circle cx="17" cy="7" r="5.5" class={of} /> : <path d="M1 7h32" class={of} />}
      </svg>
      <span>{children}</span>
    </p>
  )
}
