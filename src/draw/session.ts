import type { LineString, MultiPolygon, Point, Polygon } from 'geojson'
import type { LonLat } from '../../geo/plane/lonLat.ts'

/** What can be drawn. A bed is drawn by its long axis and then its width (three clicks), or by its outline. */
export type Drawn = 'field' | 'bed' | 'bed outline' | 'row' | 'support' | 'tree'

/** A record whose geometry can be edited. */
export type EditKind = 'fields' | 'beds' | 'rows' | 'trees' | 'supports'

export type Tool =
  | { readonly do: 'draw'; readonly what: Drawn }
  | { readonly do: 'edit'; readonly kind: EditKind; readonly id: string; readonly geometry: EditGeometry }
export type EditGeometry = Polygon | MultiPolygon | LineString | Point

/** Why a shape can't be kept as it is; told while it is drawn, never mended in silence. */
export type Problem = 'too few corners' | 'crosses itself' | 'no area' | 'no length' | 'too wide a farm' // a corner lies more than 50 km from the plane's origin, where its metres are no longer true

/**
 * The measures of what is being drawn, reckoned in the farm's plane as the stored ones are. Null where the shape has
 * no such measure, or not yet.
 */
export interface LiveMeasures {
  /** Corners put down so far, the pointer's not counted. */
  readonly corners: number
  readonly areaM2: number | null
  /** A bed's long side, or a line's whole length. */
  readonly lengthM: number | null
  /** A bed's area over its length. */
  readonly widthM: number | null
  /** A bed's or a line's direction, degrees from the plane's north, clockwise, 0 to below 180. */
  readonly bearingDeg: number | null
  /** From the last corner to the pointer, or, while a bed's width is drawn, the width. */
  readonly segmentM: number | null
  /** What the pointer is held to: a corner or edge of what stands, a right angle or parallel, or a typed length. */
  readonly snapped: 'corner' | 'edge' | 'square' | 'typed' | null
  readonly problem: Problem | null
  readonly at: LonLat | null
}

/** Rings are closed, outer ones counterclockwise, inner ones clockwise; longitudes within ±180. */
export interface Finished {
  readonly geometry: EditGeometry
  readonly measures: LiveMeasures
}

export interface SessionCallbacks {
  /** At every move of the pointer and every change. */
  onMeasure(measures: LiveMeasures): void
  /** The shape is done; the session is over. Not called with a shape that has a problem. */
  onFinish(finished: Finished): void
  /** A length in the person's units, to stand beside each side on the map; without it none stands there. */
  showLength?(lengthM: number): string
  /** Given up with Escape (or `cancel`); the session is over. */
  onCancel(): void
}

/**
 * One act of drawing or editing. Clicks and taps put corners down; the arrow keys move a crosshair (with Shift a pixel
 * at a time) and Enter puts a corner down there; Enter again at the same place, a double click or a tap on the first
 * corner finishes; Backspace takes the last corner back; Escape gives up. When editing, corners are dragged, or chosen
 * (Tab, tap) and moved by the arrow keys or by a tap elsewhere; the small marks between corners make new ones, the
 * mark in the middle moves the whole; Delete takes the chosen corner away, Enter finishes. With Alt held nothing snaps.
 */
export interface Session {
  readonly tool: Tool
  /** Fixes the segment being drawn (or, for a bed's axis, its length) to exactly so many metres toward the pointer; when editing, the side that leads to the chosen corner. Null lets go. */
  typeLength(lengthM: number | null): void
  /** Fixes the width of the bed being drawn. Null lets go. */
  typeWidth(widthM: number | null): void
  /** Puts a corner down where the pointer or crosshair is held. */
  putCorner(): void
  /** Takes the last corner back, or, when editing, the last change. */
  takeBack(): void
  /** Finishes if the shape is sound; else says why not and goes on. */
  finish(): Problem | null
  cancel(): void
}
