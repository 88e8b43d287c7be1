import type { Geometry } from 'geojson'
import type { Card } from '../../geo/cards/card.ts'
import type { PickWeek } from '../../geo/cards/pickWeeks.ts'
import type { BookBed } from '../../geo/cards/seasonBook.ts'
import type { Fault } from '../../geo/exchange/archive.ts'
import type { FormatName } from '../../geo/exchange/driver.ts'
import type { Column } from '../../geo/exchange/layers/columns.ts'
import type { FoundTable, PlaceChoice } from '../../geo/exchange/layers/found.ts'
import type { LayerPlan } from '../../geo/exchange/layers/plan.ts'
import type { BedHistory } from '../../geo/growing/bedHistory.ts'
import type { ClimbedFamily } from '../../geo/growing/climbedBySeason.ts'
import type { Copied, MoveOn } from '../../geo/growing/copySeason.ts'
import type { Warning } from '../../geo/growing/warnings/warning.ts'
import type { Layer, LayerFeature, LayerName } from '../../geo/layers/layer.ts'
import type { CanopyYears } from '../../geo/measure/canopyYears.ts'
import type { Clearance } from '../../geo/measure/clearances.ts'
import type { Measured, MeasuredBed, MeasuredField } from '../../geo/measure/measured.ts'
import type { SupportRun } from '../../geo/measure/supportRuns.ts'
import type { Farm } from '../../geo/model/farm.ts'
import type { AnyRecord } from '../../geo/model/kind.ts'
import type { Photo } from '../../geo/model/photos.ts'
import type { Taken } from '../../geo/photo/exif.ts'
import type { NearPlanting, PlantingNamed } from '../../geo/picking/nearPlantings.ts'
import type { NotebookNames } from '../../geo/picking/notebookNames.ts'
import type { PickHabits } from '../../geo/picking/pickHabits.ts'
import type { PickInFull } from '../../geo/picking/readPick.ts'
import type { SeasonPicking } from '../../geo/picking/seasonPicking.ts'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import type { Laid, RotationBeds } from '../../geo/rotation/layRotation.ts'
import type { RotationFault } from '../../geo/rotation/rotationFile.ts'
import type { RotationReading } from '../../geo/rotation/rotationReading.ts'
import type { PlanFault } from '../../geo/siting/planFile.ts'
import type { SitingReading } from '../../geo/siting/sitingReading.ts'
import type { Edit } from '../../geo/store/edit.ts'
import type { ShadeAsked, ShadeOfSpan } from '../../geo/sun/bedShade.ts'
import type { FarmCasters } from '../../geo/sun/readCasters.ts'
import type { HeldPiece } from '../../geo/supports/heldByDay.ts'
import type { SupportsSeen } from '../../geo/supports/supportsSeen.ts'
import type { WornRun } from '../../geo/supports/supportsWear.ts'
import type { Fix } from '../../geo/track/fix.ts'
import type { ReckonedComparisons } from '../../geo/yield/compare/reckonComparisons.ts'
import type { ReckonedNear } from '../../geo/yield/near/reckonNear.ts'
import type { OfCrops } from '../../geo/yield/ofCrops.ts'
import type { PointMethod } from '../../geo/yield/points/pointSurface.ts'
import type { ReckonedPoints } from '../../geo/yield/points/reckonPoints.ts'
import type { ReckonedSeasons } from '../../geo/yield/seasons/reckonSeasons.ts'
import type { YieldOnMap } from '../../geo/yield/yieldOnMap.ts'

export type { Card, CardLine, CardTable } from '../../geo/cards/card.ts'
export type { PickWeek } from '../../geo/cards/pickWeeks.ts'
export type { BookBed } from '../../geo/cards/seasonBook.ts'
export type { Fault } from '../../geo/exchange/archive.ts'
export type { FormatName } from '../../geo/exchange/driver.ts'
export type { Column } from '../../geo/exchange/layers/columns.ts'
export type { FoundTable, PlaceChoice } from '../../geo/exchange/layers/found.ts'
export type { LayerPlan } from '../../geo/exchange/layers/plan.ts'
export type { BedHistory, Lane, Stood } from '../../geo/growing/bedHistory.ts'
export type { ClimbedFamily } from '../../geo/growing/climbedBySeason.ts'
export type { Copied, MoveOn } from '../../geo/growing/copySeason.ts'
export type { Warning } from '../../geo/growing/warnings/warning.ts'
export type { BedUnder, CanopyYears, TreeYears } from '../../geo/measure/canopyYears.ts'
export type { Clearance } from '../../geo/measure/clearances.ts'
export type { Measured, MeasuredBed, MeasuredField } from '../../geo/measure/measured.ts'
export type { SupportRun } from '../../geo/measure/supportRuns.ts'
export type { Taken } from '../../geo/photo/exif.ts'
export type { ListedPick } from '../../geo/picking/listPicks.ts'
export type { NearPlanting, PlantingNamed } from '../../geo/picking/nearPlantings.ts'
export type { NotebookNames } from '../../geo/picking/notebookNames.ts'
export type { PickedFor } from '../../geo/picking/pickedForWhom.ts'
export type { PickHabits } from '../../geo/picking/pickHabits.ts'
export type { Rhythm } from '../../geo/picking/pickRhythm.ts'
export type { PickInFull } from '../../geo/picking/readPick.ts'
export type { SeasonPicking } from '../../geo/picking/seasonPicking.ts'
export type { Laid } from '../../geo/rotation/layRotation.ts'
export type { RotationReading } from '../../geo/rotation/rotationReading.ts'
export type { PlanFault } from '../../geo/siting/planFile.ts'
export type { SitingReading } from '../../geo/siting/sitingReading.ts'
export type { Edit } from '../../geo/store/edit.ts'
export type { BedShade, ShadeOfSpan } from '../../geo/sun/bedShade.ts'
export type { FarmCasters } from '../../geo/sun/readCasters.ts'
export type { HeldPiece } from '../../geo/supports/heldByDay.ts'
export type { InStore } from '../../geo/supports/partsInStore.ts'
export type { SeenRun, SupportsSeen } from '../../geo/supports/supportsSeen.ts'
export type { Breakage, WornRun } from '../../geo/supports/supportsWear.ts'
export type { ComparedGroup, Comparison } from '../../geo/yield/compare/comparisons.ts'
export type { ReckonedComparisons } from '../../geo/yield/compare/reckonComparisons.ts'
export type { NearEffect } from '../../geo/yield/near/effects.ts'
export type { ReckonedNear } from '../../geo/yield/near/reckonNear.ts'
export type { OfCrops } from '../../geo/yield/ofCrops.ts'
export type { PointMethod, PointSurface } from '../../geo/yield/points/pointSurface.ts'
export type { ReckonedPoints } from '../../geo/yield/points/reckonPoints.ts'
export type { YieldOnMap } from '../../geo/yield/yieldOnMap.ts'

/** A farm kept on this device. */
export interface FarmEntry {
  readonly id: string
  readonly name: string
  /** True for the demo farm, which is invented and marked so wherever it is shown. */
  readonly invented: boolean
  readonly madeMs: number
  readonly openedMs: number
  readonly storage: 'opfs' | 'idb'
}

/** What the page needs to know of the farm that is open. */
export interface OpenFarm {
  readonly entry: FarmEntry
  readonly farm: Farm
  /** Where the farm's plane touches the earth; null until the first geometry is drawn or brought in. */
  readonly origin: LonLat | null
  /** Seasons with records, oldest first. */
  readonly seasons: readonly number[]
  readonly history: History
  /** What the person must be told about how the farm was opened (rebuilt from the step log, wreck kept aside …). */
  readonly notices: readonly string[]
}

/** The nearest step that can be taken back, or done again. */
export interface History {
  readonly undo: string | null
  readonly redo: string | null
}

/** An expected fault, shown where it arose. `accept`: the edit can be asked again with this set on the record. */
export interface DeskFault {
  readonly kind: 'constraint' | 'archive' | 'photo' | 'locked' | 'storage' | 'not found' | 'stopped' | 'asked wrongly'
  readonly field: string | null
  readonly record: string | null
  readonly detail: string
  readonly accept?: Readonly<Record<string, unknown>>
  /** Faults in a file that was brought in, each by file, record, field and reason. */
  readonly faults?: readonly { file: string; record: string; field: string; reason: string }[]
}

export type Reply<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly fault: DeskFault }

/** What one step changed, as far as the map and the tables show it on the day looked at. */
export interface Changed {
  readonly step: string
  readonly label: string
  readonly records: readonly { kind: string; id: string }[]
  readonly layers: { readonly [L in LayerName]?: { put: LayerFeature<L>[]; gone: string[] } }
  readonly measured: {
    readonly fields: readonly MeasuredField[]
    readonly beds: readonly MeasuredBed[]
    readonly goneBeds: readonly string[]
    readonly goneFields: readonly string[]
  }
  readonly history: History
  /** The farm's record and its middle, where the step changed the record. */
  readonly farm: Pick<OpenFarm, 'farm' | 'origin'> | null
}

/** A track walked before, as its file has it. */
export interface TrackRead {
  readonly name: string
  readonly fixes: readonly Fix[]
}
export interface TracksRead {
  readonly tracks: readonly TrackRead[]
  /** What was left out of the file, and why. */
  readonly notes: readonly string[]
}

/** What photos take up on this device, in bytes, and those of removed photos that can be freed. */
export interface PhotoRoom {
  /** Photos of all farms. */
  readonly photos: number
  /** What the browser would still give, as far as it tells. */
  readonly free: number | null
  /** Photos of this farm that were removed and whose files are still there. */
  readonly removed: number
  readonly removedBytes: number
}

export interface PhotoFile {
  readonly name: string
  readonly bytes: Uint8Array
}

/** A photo ready to draw: encoded picture bytes (image/png or image/jpeg) or RGBA, and its corners UL, UR, LR, LL. */
export interface PhotoPicture {
  readonly id: string
  /** It is drawn coarser than its file is, for devices that draw no larger pictures. */
  readonly isShrunk: boolean
  readonly corners: readonly [LonLat, LonLat, LonLat, LonLat]
  readonly picture:
    | { readonly type: 'encoded'; readonly mime: string; readonly bytes: Uint8Array }
    | { readonly type: 'rgba'; readonly width: number; readonly height: number; readonly data: Uint8ClampedArray }
}

/** A layer of a file of another program, with what it most likely is. */
export interface FoundInFile {
  readonly name: string
  readonly count: number
  /** `areas`, `lines`, `points`, `mixtures` or `no shapes`. */
  readonly shapes: string
  readonly columns: readonly Column[]
  /** Kinds that things of that shape may be. */
  readonly kinds: readonly string[]
  readonly plan: LayerPlan
}

/** What a file of another program holds. The worker keeps it until another is looked into. */
export interface FileLook {
  readonly fileName: string
  readonly format: string
  readonly layers: readonly FoundInFile[]
  readonly notes: readonly Fault[]
  /** True where places were left out because their grid is not known. */
  readonly asksGrid: boolean
  /** Set for a table whose coordinates stand in columns, or are still to be found in them. */
  readonly table: FoundTable | null
  /** The middle of all that was found; null where nothing has a place. */
  readonly middle: LonLat | null
}

/** What a layer is to be; columns and constants null: guess them. */
export interface AskedPlan {
  readonly kind: string | null
  readonly columns: Readonly<Record<string, string>> | null
  readonly constants: Readonly<Record<string, string>>
}

/** What a file is to become: a plan for each of its layers. */
export interface BringAsked {
  readonly plans: readonly AskedPlan[]
  /** What has the id of a record of the farm changes that record. */
  readonly replaces: boolean
  /** Beds and rows that reach out of what they belong to are kept, so long as they lie partly in it. */
  readonly acceptsOutside: boolean
}

/** What a file holds, by what would become of it. */
export interface BroughtShapes {
  readonly kept: readonly Geometry[]
  /** For a fault of its own or of what it belongs to. */
  readonly leftOut: readonly Geometry[]
  /** Of layers that are to be no kind of record. */
  readonly notTaken: readonly Geometry[]
}

/** What would be kept of a file, by the plans asked for. */
export interface BringPreview {
  readonly plans: readonly LayerPlan[]
  readonly counts: readonly { readonly kind: string; readonly count: number }[]
  readonly shapes: BroughtShapes
  /** What of them is not drawn: what has no place that could be, and what there is beyond the most that is drawn at a time. */
  readonly undrawn: { readonly placeless: number; readonly beyond: number }
  readonly leftOut: readonly Fault[]
  readonly notes: readonly Fault[]
  /** What reaches out of what it belongs to, and may be accepted; the farthest in metres. */
  readonly outside: {
    readonly counts: readonly { readonly kind: string; readonly count: number }[]
    readonly farthestM: number
  }
}

/** A picture that is still to be placed: `widthPx` × `heightPx` as it stands upright, ready to draw, and what its tags say. */
export interface PictureSeen extends Pick<PhotoPicture, 'picture'> {
  readonly name: string
  readonly widthPx: number
  readonly heightPx: number
  readonly taken: Taken
}

/** A photo's place by control points, as its record keeps it. */
export type PhotoPlace = Pick<Photo, 'corners' | 'control_points' | 'residuals' | 'placed_by' | 'opacity'>

/** `stretches` and `zones` come in the order of the surface's, asked for the same seasons and crops. */
export type YieldSeasons = Omit<ReckonedSeasons, 'together'>

/** Of which seasons and crops yield is asked for: `seasons` empty for the one season alone, `of` null for all crops. */
export interface YieldGroundAsked {
  readonly season: number
  readonly seasons: readonly number[]
  readonly of: OfCrops | null
}

/** What surface of yield is asked for. */
export interface YieldSurfaceAsked extends YieldGroundAsked {
  readonly cellM: number
  readonly smoothM: number
}

/** Every request that the page makes of the worker: what is asked, what comes back. The whole boundary. */
export interface Requests {
  /** The farms on this device, the last opened first. */
  listFarms: [ask: Record<never, never>, reply: readonly FarmEntry[]]
  makeFarm: [
    ask: {
      name: string
      units: 'metric' | 'us'
      currency: string | null
      timezone: string | null
      origin: LonLat | null
    },
    reply: OpenFarm,
  ]
  makeDemo: [ask: Record<never, never>, reply: OpenFarm]
  bringArchive: [ask: { name: string; bytes: Uint8Array; partial: boolean }, reply: OpenFarm]
  /** `rebuild` is set by the page's side of the door alone, when the engine did not answer. */
  openFarm: [ask: { id: string; takeOver: boolean; rebuild?: boolean }, reply: OpenFarm]
  forgetFarm: [ask: { id: string }, reply: null]
  takeArchive: [ask: Record<never, never>, reply: { name: string; zip: Blob }]
  seeLayers: [ask: { on: string }, reply: { readonly [L in LayerName]: Layer<L> }]
  edit: [ask: { label: string; edits: readonly Edit[]; on: string }, reply: Changed]
  /** Removes records with all that stands on them, as one step. */
  remove: [ask: { things: readonly { kind: string; id: string }[]; label: string; on: string }, reply: Changed]
  undo: [ask: { on: string }, reply: Changed | null]
  redo: [ask: { on: string }, reply: Changed | null]
  measure: [ask: { on: string }, reply: Measured]
  clearance: [ask: { on: string }, reply: readonly Clearance[]]
  supportRuns: [ask: { on: string }, reply: readonly SupportRun[]]
  /** All that bills, costs and loads of the runs standing on a day are reckoned from. */
  supportsSeen: [ask: { on: string }, reply: SupportsSeen]
  /** Climbing row held and unheld through a season. */
  heldSeason: [ask: { season: number }, reply: readonly HeldPiece[]]
  /** Runs up to a day, with what was seen broken on them. */
  supportsWear: [ask: { on: string }, reply: readonly WornRun[]]
  /** What crops gave under one support system against another, over all seasons picked up to one. */
  systemsCompared: [ask: { season: number }, reply: ReckonedComparisons]
  /** Yield of a season, or of several together where `seasons` names any; of all crops, or of one or of one family. */
  yield: [ask: YieldSurfaceAsked, reply: YieldOnMap]
  /**
   * The surface asked for last, smoothed anew: kg and index (NaN where nothing was expected) at its cells, in their order.
   * Where only the smoothing is another than last time, only that is redone.
   */
  yieldSmooth: [
    ask: YieldSurfaceAsked,
    reply: { readonly smoothM: number; readonly kg: Float64Array; readonly index: Float64Array },
  ]
  /** System, variety and side comparisons within crops. */
  yieldComparisons: [ask: YieldGroundAsked, reply: ReckonedComparisons]
  /** The index through the middles of stretches by kriging or inverse distance, at the surface's cells in their order. */
  yieldPoints: [ask: Omit<YieldSurfaceAsked, 'smoothM'> & { method: PointMethod }, reply: ReckonedPoints]
  /** What lies near and how the index goes with it, and for each zone what to look at in the field. */
  yieldNear: [ask: YieldGroundAsked, reply: ReckonedNear]
  /** Season against season, cold ground over the seasons, and what the season of the day is to give. */
  yieldSeasons: [ask: YieldGroundAsked & { on: string }, reply: YieldSeasons]
  /** What throws shadows on a day, in the plane: the page draws the shadows of any hour of it by itself. */
  casters: [ask: { on: string }, reply: FarmCasters]
  /** Hours of direct sun that a slice of the beds loses in a short span. */
  bedShade: [ask: ShadeAsked, reply: ShadeOfSpan]
  /** What has climbed, by family and season: a first guess at what will. */
  climbed: [ask: Record<never, never>, reply: readonly ClimbedFamily[]]
  /** All that the choice of rows for permanent supports is made from; `plan` is a plan file's value. */
  readSiting: [
    ask: { plan: Readonly<Record<string, unknown>> },
    reply: { readonly reading: SitingReading } | { readonly faults: readonly PlanFault[] },
  ]
  /** Canopies and root reach in so many years to come. */
  canopyYears: [ask: { on: string; ahead: number }, reply: CanopyYears]
  pickWeeks: [ask: { season: number }, reply: readonly PickWeek[]]
  /** The season from its first day to the day looked at (or its last). */
  seasonPicking: [ask: { season: number; on: string }, reply: SeasonPicking]
  readPick: [ask: { id: string }, reply: PickInFull]
  pickHabits: [ask: { on: string }, reply: PickHabits]
  namePlanting: [ask: { id: string }, reply: PlantingNamed]
  /** Plantings standing on the day, the nearest first, and the bed that the place lies in. */
  nearPlantings: [
    ask: { at: LonLat; on: string; most: number },
    reply: {
      readonly plantings: readonly NearPlanting[]
      readonly bed: { readonly id: string; readonly name: string } | null
    },
  ]
  notebookNames: [ask: Record<never, never>, reply: NotebookNames]
  /** What to look at again, of the beds named or of all; with edits, as if these plantings, crops and varieties were kept. */
  warnings: [ask: { on: string; beds: readonly string[] | null; edits: readonly Edit[] }, reply: readonly Warning[]]
  bedHistory: [ask: { bed: string }, reply: BedHistory]
  /** A season's plantings as they would be in the next; nothing is kept. */
  copySeason: [ask: { season: number } & MoveOn, reply: readonly Copied[]]
  /** All that a rotation is reckoned from, as the farm stands on a day; `rotation` is a rotation file's value. */
  readRotation: [
    ask: { rotation: Readonly<Record<string, unknown>>; on: string },
    reply: { readonly reading: RotationReading } | { readonly faults: readonly RotationFault[] },
  ]
  /** Plantings as they would be in some seasons of a rotation; nothing is kept. */
  layRotation: [ask: { rotation: RotationBeds; seasons: readonly number[] }, reply: readonly Laid[]]
  /** The season by bed, from its first day to its last. */
  seasonBook: [
    ask: { season: number },
    reply: { readonly from: string; readonly to: string; readonly beds: readonly BookBed[] },
  ]
  /** Keeps a picture (JPEG) among the farm's photo files; the record that shows it names the file. */
  keepNotePicture: [ask: { bytes: Uint8Array }, reply: { readonly file: string }]
  seeNotePicture: [ask: { file: string }, reply: { readonly mime: string; readonly bytes: Uint8Array }]
  seeCard: [ask: { kind: string; id: string; on: string }, reply: Card]
  listRecords: [ask: { kind: string }, reply: readonly AnyRecord[]]
  /** Records whose place meets the ground of some records of another kind. */
  recordsOver: [ask: { kind: string; over: string; ids: readonly string[] }, reply: readonly AnyRecord[]]
  /** Records by id, or by what they refer to in a field. */
  recordsWith: [ask: { kind: string; by: string; ids: readonly string[] }, reply: readonly AnyRecord[]]
  listPhotos: [ask: Record<never, never>, reply: readonly Photo[]]
  /** A GeoTIFF, or a picture with its world file (and .prj) beside it; `crs` where the world file's is not known. */
  addPhoto: [
    ask: {
      files: readonly PhotoFile[]
      on: string | null
      crs: string | null
      /** Set where the person has placed it by control points. */
      place: PhotoPlace | null
      at: string
    },
    reply: { photo: Photo; changed: Changed },
  ]
  /**
   * Needs no open farm. `grid`: an EPSG code or PROJ string for coordinates whose grid the file does not tell; `columns`: those
   * of a table that hold them, null for what their names say.
   */
  lookIntoFile: [
    ask: { files: readonly PhotoFile[]; grid: string | null; columns: PlaceChoice | null },
    reply: FileLook,
  ]
  /** What of the file looked into last would be kept, one plan a layer. */
  seeBringing: [ask: BringAsked, reply: BringPreview]
  /** Keeps it as one step. */
  bringIn: [ask: BringAsked & { label: string; on: string }, reply: { changed: Changed; leftOut: readonly Fault[] }]
  /** The farm's layers of those kinds as a file; `on` leaves out what does not stand on that day. */
  sendOut: [
    ask: { format: FormatName; kinds: readonly string[]; on: string | null },
    reply: { file: PhotoFile; mediaType: string; notes: readonly Fault[] },
  ]
  /** A picture to be placed by control points: one just chosen, or a photo of the farm by its id. */
  seePicture: [ask: { of: readonly PhotoFile[] | string; maxSidePx: number }, reply: PictureSeen]
  photoPicture: [ask: { id: string; maxSidePx: number }, reply: PhotoPicture]
  /** The tracks and routes of a GPX file, each segment of a track by itself, for making a boundary of one. */
  readTracks: [ask: PhotoFile, reply: TracksRead]
  /** Records a photo whose files were kept piece by piece already (`tiles/tilesDoor.ts`). */
  recordPhoto: [
    ask: {
      id: string
      name: string
      ending: string
      on: string | null
      crs: string | null
      /** Set where the person has placed it by control points. */
      place: PhotoPlace | null
      at: string
    },
    reply: { photo: Photo; changed: Changed },
  ]
  /** Files of photos that were removed stay, so that the removal can be undone, and count. */
  photoRoom: [ask: Record<never, never>, reply: PhotoRoom]
  /** Removes the files of removed photos for good; undoing the removals brings the records back without their pictures. */
  freeRemovedPhotos: [ask: Record<never, never>, reply: null]
}
export type RequestName = keyof Requests
export type Ask<N extends RequestName> = Requests[N][0]
export type Answer<N extends RequestName> = Requests[N][1]

/**
 * True progress of opening (bytes fetched of bytes in all, then the engine's own start), of reading a file, and of keeping
 * a step (its records written of all).
 */
export interface Progress {
  readonly doing: string
  readonly done: number
  readonly of: number
}

/** What the worker says unasked. `lost`: another tab took the farm over, or the engine died; the page must ask to open again. */
export type DeskEvent =
  | { readonly event: 'progress'; readonly progress: Progress }
  | { readonly event: 'lost'; readonly why: string }
  | { readonly event: 'kept'; readonly copyMs: number }
  /** There was no room for a logical copy. What was confirmed is in the database and the step log all the same. */
  | { readonly event: 'no copy' }

/** Page to worker. */
export type ToWorker =
  | { readonly n: number; readonly name: RequestName; readonly ask: unknown }
  | { readonly stop: number }
/** Worker to page: the reply to request `n`, an event, or first of all the lock that is free again when the worker ends. */
export type ToPage = { readonly n: number; readonly reply: Reply<unknown> } | { readonly alive: string } | DeskEvent

/** The page's side of the door. Every request settles: with its reply, a fault, or the death of the worker. */
export interface Desk {
  ask<N extends RequestName>(name: N, ask: Ask<N>, options?: { signal?: AbortSignal }): Promise<Reply<Answer<N>>>
  listen(hear: (event: DeskEvent) => void): () => void
}
