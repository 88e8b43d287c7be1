import { farmMap, mapView } from '../state/mapHandle.ts'

/** Nearer, farther, all of the farm, and north up again where the map was turned. */
export function ZoomTools() {
  const turned = Math.abs(mapView.value?.bearingDeg ?? 0) > 0.5
  return (
    <fieldset class="zoom-tools">
      <legend class="unseen">Look</legend>
      <button type="button" class="sign" aria-label="Nearer" onClick={() => farmMap.value?.zoomBy(1)}>
        +
      </button>
      <button type="button" class="sign" aria-label="Farther" onClick={() => farmMap.value?.zoomBy(-1)}>
        −
      </button>
      <button type="button" onClick={() => farmMap.value?.fitTo(null)}>
        All
      </button>
      {turned && (
        <button type="button" onClick={() => farmMap.value?.turnNorth()}>
          N up
        </button>
      )}
    </fieldset>
  )
}
