import type { Geometry } from 'geojson'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import type { Thing, ThingKind } from '../map/farmMap.ts'
import type { EditGeometry } from './shape.ts'
import type { Segment, SnapName, Snaps } from './snap.ts'

/**
 * What can be drawn. Beds and rectangular fields are drawn by one side and then their width (three clicks). A hole is
 * taken out of a field or structure, a cut divides one; what is measured is not kept.
 */
export type Drawn =
  | 'field'
  | 'field rectangle'
  | 'bed'
  | 'bed outline'
  | 'row'
  | 'support'
  | 'tree'
  | 'structure point'
  | 'structure line'
  | 'structure area'
  | 'observation'
  | 'hole'
  | 'cut'
  | 'measure'

/** A record whose geometry can be edited. */
export type EditKind = Exclude<ThingKind, 'plantings' | 'picks' | 'dressings' | 'stock_lots'>
export type { EditGeometry } from './shape.ts'

/** A thing of the farm with the place that it has, or is to have. */
export interface PlacedThing {
  readonly kind: EditKind
  readonly id: string
  readonly geometry: Geometry
}

export type Tool =
  | { readonly do: 'draw'; readonly what: Drawn; readonly of?: PlacedThing }
  | { readonly do: 'edit'; readonly kind: EditKind; readonly id: string; readonly geometry: EditGeometry }
  /** Moves and turns several things together. */
  | { readonly do: 'move'; readonly things: readonly PlacedThing[] }
  /** Takes several together, by taps and by boxes. */
  | { readonly do: 'select' }
  /** Shows what would come of an act; waits for an edge to be tapped, where it goes by one. */
  | { readonly do: 'arrange'; readonly edges: boolean }

/** Why a shape can't be kept as it is; told while it is drawn, never mended in silence. */
export type Problem =
  | 'too few corners'
  | 'crosses itself'
  | 'no area'
  | 'no length'
  /** A corner lies more than 50 km from the plane's origin, where its metres are no longer true. */
  | 'too wide a farm'
  /** A hole that does not lie wholly in what it is cut from. */
  | 'leaves its ground'
  /** A cut that divides nothing. */
  | 'cuts nothing'

/** What can be wrong with a shape by itself, on no ground but its own. */
export type ShapeProblem = Exclude<Problem, 'leaves its ground' | 'cuts nothing'>

/** How far things were moved and turned; the bearing from north clockwise, the turn clockwise. */
export interface Moved {
  readonly distanceM: number
  readonly bearingDeg: number
  readonly turnDeg: number
}

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
  /** From the last corner to the pointer, or, while a rectangle's width is drawn, the width. */
  readonly segmentM: number | null
  /** The way of that side, degrees from north clockwise, 0 to below 360. */
  readonly segmentDeg: number | null
  /** What the pointer is held to first of all: what stands, a right angle or parallel, or what was typed. */
  readonly snapped: SnapName | 'typed' | null
  /** All that it is held to. */
  readonly held: readonly SnapName[]
  readonly problem: Problem | null
  readonly at: LonLat | null
  /** When editing: a corner is chosen that can be taken away. */
  readonly canDrop: boolean
  readonly moved: Moved | null
  /** What was measured and is not kept: of all lines and of all outlines that were closed. */
  readonly sums: {
    readonly lines: number
    readonly lengthM: number
    readonly outlines: number
    readonly areaM2: number
  } | null
}

/** Rings are closed, outer ones counterclockwise, inner ones clockwise; longitudes within ±180. */
export interface Finished {
  readonly geometry: EditGeometry
  readonly measures: LiveMeasures
  /** Where things moved together have come, and what goes along with them or with a reshaped bed. */
  readonly others: readonly PlacedThing[]
}

export interface SessionCallbacks {
  /** At every move of the pointer and every change. */
  onMeasure(measures: LiveMeasures): void
  /**
   * The shape is done; the session is over. Not called with a shape that has a problem. Where what is answered is over,
   * the map draws it; until then it stands as it was drawn.
   */
  onFinish(finished: Finished): Promise<unknown> | undefined
  /** A length in the person's units, to stand beside each side on the map; without it none stands there. */
  showLength?(lengthM: number): string
  /** Given up with Escape (or `cancel`); the session is over. */
  onCancel(): void
  /** What the pointer may be held to; without it everything. */
  snaps?(): Snaps
  /** Whether a rectangle keeps its right angles while a corner or side is moved. */
  keepsSquare?(): boolean
  /** What goes along when the ground under it is moved or reshaped. */
  along?(): readonly PlacedThing[]
  /** Taken into those selected, or left out again; a box takes in all that it holds. */
  onSelect?(things: readonly Thing[], how: 'toggle' | 'add'): void
  /** Whether a finger draws a box where it would move the map. */
  boxes?(): boolean
  /** An edge was tapped, while one is waited for; nearest to the place. */
  onEdge?(edge: Segment): void
}

/** What is typed while a side is drawn: null is not typed. `bearingDeg` is the side's own, from north clockwise. */
export interface TypedSide {
  readonly lengthM: number | null
  readonly widthM: number | null
  readonly bearingDeg: number | null
  readonly areaM2: number | null
}

/** What can be typed into a session: of a side being drawn, or the turn and shift of things being moved. */
export type TypedInto = keyof TypedSide | 'turnDeg' | 'distanceM'

/**
 * One act of drawing or editing. Clicks and taps put corners down; the arrow keys move a crosshair (with Shift a pixel
 * at a time) and Enter puts a corner down there; Enter again at the same place, a double click or a tap on the first
 * corner finishes; Backspace takes the last corner back; Escape gives up. When editing, corners are dragged, or chosen
 * (Tab, tap) and moved by the arrow keys or by a tap elsewhere; the small marks between corners make new ones, the
 * mark in the middle moves the whole; Delete takes the chosen corner away, Enter finishes. Things moved together are
 * dragged, turned by the mark beyond them, or moved by the arrow keys and turned by comma and full stop. With Alt held
 * nothing snaps.
 */
export interface Session {
  readonly tool: Tool
  /** Fixes something to exactly what was typed: of the side being drawn (of a side that leads to the chosen corner, when editing: its length), or of things being moved. Null lets go. */
  type(what: TypedInto, value: number | null): void
  /** Puts a corner down where the pointer or crosshair is held, or where what was typed puts it. */
  putCorner(): void
  /** Takes the chosen corner away, when editing, where enough of them stay. */
  dropCorner(): void
  /** Takes the last corner back, or, when editing, the last change. */
  takeBack(): void
  /** Back to the beginning: no corners, the shape as it was, nothing measured. */
  clear(): void
  /** Shows things as they would become, beside what is being done. */
  preview(things: readonly PlacedThing[], faulty: boolean): void
  /** Draws anew what depends on the person's choices. */
  refresh(): void
  /** Finishes if the shape is sound; else says why not and goes on. */
  finish(): Problem | null
  cancel(): void
}

/** A session's own part: what it does, without what every session does alike. */
export type SessionWork = Omit<Session, 'tool' | 'cancel' | 'preview' | 'refresh'>
