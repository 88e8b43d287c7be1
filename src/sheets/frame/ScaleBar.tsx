import type { MapView } from '../../map/farmMap.ts'
import type { Units } from '../show/figures.ts'
import { scaleBar } from '../show/scaleBar.ts'

const MOST_PX = 132
const EDGE = 14

/** A bar whose length on the screen is the length it says, at the middle of the map. */
export function ScaleBar({ view, units }: { readonly view: MapView; readonly units: Units }) {
  const { widthPx, half, whole } = scaleBar(view.metresPerPixel, MOST_PX, units)
  const width = MOST_PX + EDGE + 36
  return (
    <svg
      class="scale-bar"
      width={width}
      height="32"
      viewBox={`0 0 ${width} 32`}
      role="img"
      aria-label={`Scale: ${whole}`}
    >
      <text x={EDGE} y="11">
        0
      </text>
      <text x={EDGE + widthPx / 2} y="11">
        {half}
      </text>
      <text x={EDGE + widthPx} y="11">
        {whole}
      </text>
      <rect x={EDGE} y="17" width={widthPx} height="6" class="scale-open" />
      <rect x={EDGE} y="17" width={widthPx / 2} height="6" class="scale-full" />
      <path d={`M${EDGE} 15v10M${EDGE + widthPx / 2} 15v10M${EDGE + widthPx} 15v10`} class="scale-tick" />
    </svg>
  )
}
