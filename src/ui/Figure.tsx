import type { ComponentChildren } from 'preact'
import { From } from './From.tsx'

interface Props {
  readonly value: string
  readonly unit: string
  /** What the figure is, in words; its grounds stand under it. */
  readonly children: ComponentChildren
  readonly from?: ComponentChildren
  /** Drawn in madder: something is amiss that the person can mend. */
  readonly amiss?: boolean
}

/** The figure that matters on a sheet: large, with its grounds in words under it. */
export function Figure({ value, unit, children, from, amiss = false }: Props) {
  return (
    <div class={amiss ? 'figure amiss' : 'figure'}>
      <p class="figure-value">
        {value}
        {unit !== '' && <span class="figure-unit"> {unit}</span>}
      </p>
      <p class="figure-grounds">{children}</p>
      {from !== undefined && <From>{from}</From>}
    </div>
  )
}
