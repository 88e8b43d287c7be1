/** Points to true north; turns with the map. `bearingDeg` is the compass direction that is up. */
export function NorthArrow({ bearingDeg }: { readonly bearingDeg: number }) {
  return (
    <svg class="north-arrow" width="40" height="40" viewBox="-20 -20 40 40" role="img" aria-label="North arrow">
      <g transform={`rotate(${-bearingDeg})`}>
        <path d="M0-18 5 4 0 1Z" class="north-full" />
        <path d="M0-18-5 4 0 1Z" class="north-open" />
        <path d="M0 1V7" class="north-open" />
        <text y="18">N</text>
      </g>
    </svg>
  )
}
