import type { FeatureCollection, Geometry, LineString, MultiPolygon, Point, Polygon } from 'geojson'
import type { LayerSpecification, Map as MapLibre } from 'maplibre-gl'
import type { Layer, LayerFeature, LayerName } from '../../geo/layers/layer.ts'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import type { BroughtShapes, PhotoPicture } from '../desk/door.ts'
import type { Look } from './theme/palette.ts'

/** The sheets, each a theme of the one map. */
export const SHEETS = ['ground', 'growing', 'supports', 'picking', 'yield', 'siting', 'stock'] as const
export type Sheet = (typeof SHEETS)[number]

/** Every layer's features as on the day shown: what the desk's `seeLayers` replies. */
export type Layers = { readonly [L in LayerName]: Layer<L> }

/** What one step changed: the `layers` of the desk's `Changed`. A record's features are replaced by those in `put`; `gone` are record ids. */
export type LayerChanges = { readonly [L in LayerName]?: { put: LayerFeature<L>[]; gone: string[] } }

/** The kinds of record that have a card; named as in geo/model, so that one can be asked of `seeCard` as it is. Picks, dressings and stock lots are drawn nowhere by themselves. */
export type ThingKind =
  | 'fields'
  | 'beds'
  | 'rows'
  | 'trees'
  | 'supports'
  | 'structures'
  | 'observations'
  | 'plantings'
  | 'picks'
  | 'dressings'
  | 'stock_lots'
export interface Thing {
  readonly kind: ThingKind
  readonly id: string
}

/** What the surface's values are: amounts from `least`, else from nothing, up to `most` (cividis), or an index about par, 1 (RdYlBu, half of par to half more). */
export type Ramp = { readonly of: 'amount'; readonly least?: number; readonly most: number } | { readonly of: 'par' }

/**
 * Coloured ground: yield cells, or beds by the sun that they lose. `values` are those of `pieces`, in their order and in
 * the unit of the caller; NaN is drawn as ground with nothing to tell. Where `pieces` is the same array as before, only
 * their colours are changed.
 */
export interface Surface {
  readonly ramp: Ramp
  readonly pieces: readonly (Polygon | MultiPolygon)[]
  readonly values: ArrayLike<number>
}

/** Low-yield zones; a zone is tapped by its `id`, told by 'zone'. */
export type Zones = FeatureCollection<Polygon | MultiPolygon, { id: string }>
/** Posts along runs; `count` stand together, `end` where an end post does. */
export type Posts = FeatureCollection<Point, { readonly count: number; readonly end: boolean }>

/** What the Siting sheet lays over the plan; `words` stand along a line. */
export type Siting = FeatureCollection<
  Polygon | MultiPolygon | LineString,
  {
    readonly as: 'shadow' | 'canopy' | 'reach' | 'under' | 'candidate' | 'chosen' | 'later' | 'season' | 'looked at'
    readonly words?: string
  }
>

/** What is not kept yet: beds and rows to be laid; a walk's track, the shape made of it, and where the device is with its accuracy. */
export type Proposed = FeatureCollection<
  Polygon | MultiPolygon | LineString | Point,
  { as: 'bed' | 'row' | 'shape' | 'track' | 'left out' | 'corner' | 'here' | 'accuracy' }
>

/** A photo too large to be shown in one piece: drawn tile by tile, as the view needs. */
export interface TiledPicture {
  readonly type: 'tiles'
  readonly bounds: readonly [west: number, south: number, east: number, north: number]
  readonly minZoom: number
  readonly maxZoom: number
  /** Draws one tile, `sidePx` a side; null where no part of the photo lies in it. Rejects where it cannot be drawn. */
  draw(
    tile: { readonly z: number; readonly x: number; readonly y: number },
    sidePx: number,
    signal: AbortSignal,
  ): Promise<ImageBitmap | null>
  /** All of it, upright between the photo's corners, its longer side `maxSidePx`: for paper. */
  whole(maxSidePx: number): Promise<ImageBitmap>
}

/** A photo under the beds. `opacity` from 0 to 1. The array's later photos lie on the earlier ones. */
export interface MapPhoto extends Omit<PhotoPicture, 'picture' | 'isShrunk'> {
  readonly picture: PhotoPicture['picture'] | TiledPicture
  readonly opacity: number
  readonly visible: boolean
}

/** Two photos side by side: one left of a line across the map, the other right of it. `at` is from 0 (left) to 1. */
export interface Swipe {
  readonly left: string
  readonly right: string
  readonly at: number
}

/** South-west and north-east corners; west may lie below -180 or east above 180 for a farm on that meridian. */
export interface Bounds {
  readonly southWest: LonLat
  readonly northEast: LonLat
}

/** Where the map looks. `bearingDeg` is the compass direction that is up; `metresPerPixel` holds at the centre, in CSS pixels. */
export interface MapView {
  readonly centre: LonLat
  readonly zoom: number
  readonly bearingDeg: number
  readonly metresPerPixel: number
}

/** Room kept free at the map's edges when fitting, in CSS pixels. */
export interface Padding {
  readonly top: number
  readonly right: number
  readonly bottom: number
  readonly left: number
}

/** What is under the pointer. `value` is the surface's there, null where it has none; `pixel` is from the map's upper left corner. */
export interface Hover {
  readonly thing: Thing | null
  readonly name: string | null
  readonly value: number | null
  readonly at: LonLat
  readonly pixel: readonly [x: number, y: number]
}

export interface FarmMapEvents {
  /** A tap or click, or Enter at the map's middle; `thing` is null on empty ground. Silent while something is drawn. */
  pick: {
    readonly thing: Thing | null
    readonly zone: string | null
    readonly at: LonLat
    /** Shift, Ctrl or the command key was held: one more. */
    readonly more: boolean
  }
  /** The pointer moved on the map, or left it (null). Silent while something is drawn. */
  hover: Hover | null
  /** The view moved, told at most once a frame. */
  view: MapView
  /** MapLibre met a fault that the map goes on without (a photo that does not decode, a font that does not load). */
  fault: { readonly detail: string }
}

export interface FarmMapOptions {
  readonly sheet: Sheet
  readonly look: Look
  /** The day that it is: what is set out after it is drawn as planned. */
  readonly today: string
  /** Where to look first; without it the whole world is shown until `fitTo`. */
  readonly view?: Pick<MapView, 'centre' | 'zoom' | 'bearingDeg'>
  /** What a screen reader calls the map. */
  readonly label: string
  /** No easing when the view is set. */
  readonly reducedMotion: boolean
}

/** What drawing needs of the map, below the farm's words; only src/draw uses it. */
export interface DrawingGround {
  /** MapLibre's own map. */
  readonly map: MapLibre
  /** The features shown of a layer, as last set and patched. */
  featuresOf<L extends LayerName>(layer: L): readonly LayerFeature<L>[]
  /** Counts up whenever a layer's features change. */
  readonly changes: number
  /** While held, taps and hovers are drawing's, and `hidden` (being edited) is not drawn. */
  hold(hidden: readonly Thing[]): void
  /**
   * Lets go, and draws what was hidden again as it was, and things that were given a new place there, as soon as `after`
   * is over, however it ends, and what it changed in the page is painted: cutting tiles would keep that waiting. Settles
   * when the map's worker has taken it in.
   */
  release(placed: readonly (Thing & { readonly geometry: Geometry })[], after?: Promise<unknown>): Promise<void>
  /** What a tap at a place, in pixels from the map's upper left corner, would mean. */
  thingAt(at: readonly [x: number, y: number], touch: boolean): Thing | null
  /** Everything that lies wholly within a box on the screen. */
  thingsIn(from: readonly [x: number, y: number], to: readonly [x: number, y: number]): readonly Thing[]
}

/** What a map shows by day: its theme's layers from below to above, the features of each source, and the photos beneath. */
export interface DrawnMap {
  readonly layers: readonly LayerSpecification[]
  readonly sources: Readonly<Record<string, FeatureCollection>>
  readonly ramp: Ramp
  /** Those shown, the lowest first. */
  readonly photos: readonly Pick<MapPhoto, 'id' | 'corners' | 'opacity' | 'picture'>[]
}

/** The map of a farm. One stands for the whole life of the page; sheets only change its theme. */
export interface FarmMap {
  /** Settles when the map has drawn its first frame. */
  readonly ready: Promise<void>
  /** Replaces every layer. Settles when the map's worker has taken it in. */
  setLayers(layers: Layers): Promise<void>
  /** Applies a step's changes to the layers, and only those. Settles when the map's worker has taken them in. */
  patch(changes: LayerChanges): Promise<void>
  setSheet(sheet: Sheet): void
  setLook(look: Look): void
  /** Coloured ground, shown on the sheets of yield and siting. */
  setSurface(surface: Surface | null): Promise<void>
  setZones(zones: Zones | null): Promise<void>
  /** Posts of the runs, shown on the Supports sheet only. */
  setPosts(posts: Posts | null): Promise<void>
  /** Shadows, canopies to come and rows for supports, shown on the Siting sheet only. */
  setSiting(siting: Siting | null): Promise<void>
  /** What is proposed, drawn above everything on every sheet. */
  setProposed(proposed: Proposed | null): Promise<void>
  /** Photos not in the list are taken away; a photo whose `picture` is the same object is not decoded again. Settles when all are handed to the map. */
  setPhotos(photos: readonly MapPhoto[]): Promise<void>
  /** Shows two photos either side of a line; null shows all photos whole again. */
  setSwipe(swipe: Swipe | null): void
  /** Shapes of a file before they are kept, over everything; null takes them away. */
  setBrought(shapes: BroughtShapes | null): Promise<void>
  /** What is shown as selected. */
  setSelected(things: readonly Thing[]): void
  /** Where the device is and how sure of it it is, in metres; drawn on every sheet. */
  setPosition(position: { readonly at: LonLat; readonly accuracyM: number } | null): void
  /** Brings bounds, a thing, or (null) everything into view. Says whether there was anything to fit. */
  fitTo(what: Bounds | Thing | null, padding?: Padding): boolean
  getView(): MapView
  setView(view: Pick<MapView, 'centre' | 'zoom' | 'bearingDeg'>): void
  zoomBy(steps: number): void
  turnNorth(): void
  /** Listens; returns what stops the listening. */
  on<E extends keyof FarmMapEvents>(event: E, hear: (told: FarmMapEvents[E]) => void): () => void
  /** The map as it stands, as a PNG in device pixels, once all is drawn. */
  picture(): Promise<Blob>
  /** All that it shows now, in the day's colours and with nothing selected, for drawing it on something else than a screen. */
  drawn(withPhotos: boolean): Promise<DrawnMap>
  readonly drawing: DrawingGround
  destroy(): void
}
