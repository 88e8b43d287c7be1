import type { Map as MapLibre } from 'maplibre-gl'
import type { Ground } from './ground.ts'
import type { Overlay } from './overlay.ts'
import type { EditGeometry, LiveMeasures, PlacedThing, SessionCallbacks } from './session.ts'
import type { Shape } from './shape.ts'

/** What drawing and editing work on, whatever is drawn. */
export interface Table {
  readonly map: MapLibre
  readonly ground: Ground
  readonly overlay: Overlay
  readonly callbacks: SessionCallbacks
  /** The session is over with this shape; its measures are asked of the geometry as it is handed on. */
  finish(shape: Shape, measures: (geometry: EditGeometry) => LiveMeasures, others?: readonly PlacedThing[]): void
  /** The session is over with things that have come elsewhere. */
  finishAll(things: readonly PlacedThing[], measures: LiveMeasures): void
  /** Whether the pointer is over something to take hold of. */
  canTake(yes: boolean): void
}
