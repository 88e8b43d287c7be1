import { useId } from 'preact/hooks'

/** A ramp of colours, straight lines between its stops. */
export function Ramp({ stops }: { readonly stops: readonly (readonly [value: number, colour: string])[] }) {
  const id = useId()
  const first = stops[0]![0]
  const span = stops.at(-1)![0] - first
  return (
    <svg class="ramp" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
      <linearGradient id={id}>
        {stops.map(([value, colour]) => (
          <stop key={value} offset={(value - first) / span} stop-color={colour} />
        ))}
      </linearGradient>
      <rect width="100" height="6" fill={`url(#${id})`} />
    </svg>
  )
}
