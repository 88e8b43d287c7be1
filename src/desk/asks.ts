import { z } from 'zod'
import { farm } from '../../geo/model/farm.ts'
import { isDay } from '../../geo/model/field.ts'
import { KINDS, kindNamed } from '../../geo/model/kinds.ts'
import { photos } from '../../geo/model/photos.ts'
import type { Edit } from '../../geo/store/edit.ts'
import type { Ask, RequestName } from './door.ts'
import { changeSchema, recordSchema } from './recordSchema.ts'
import { Refusal } from './refusal.ts'

const nothing = z.object({})
const id = z.string().min(1)
const label = z.string().min(1)
const day = z.string().refine(isDay, 'is not a calendar day written YYYY-MM-DD')
const asOn = z.object({ on: day })
const bytes = z.instanceof(Uint8Array)
const kind = z.enum(['farm', ...KINDS.map((k) => k.name)])
const maxSidePx = z.int().min(16).max(16384)
const season = z.int().min(1).max(9999)

const rotationBeds = z.object({
  season,
  groups: z.array(z.object({ name: z.string(), from_beds: z.array(id) })),
  beds: z.array(z.object({ bed: id, years: z.record(z.string(), z.string()) })),
})

const file = z.object({ name: z.string().min(1), bytes })
const files = z.array(file).min(1)
const plans = z.array(
  z.object({
    kind: kind.nullable(),
    columns: z.record(z.string(), z.string()).nullable(),
    constants: z.record(z.string(), z.string()),
  }),
)
const bringAsked = { plans, replaces: z.boolean(), acceptsOutside: z.boolean() }
const place = z
  .object({
    corners: photos.fields.corners.schema,
    control_points: photos.fields.control_points.schema,
    residuals: photos.fields.residuals.schema,
    placed_by: photos.fields.placed_by.schema,
    opacity: photos.fields.opacity.schema,
  })
  .nullable()
const formats = ['archive zip', 'geojson', 'kml', 'kmz', 'gpx', 'shapefile', 'csv', 'geopackage'] as const

const edit = z.discriminatedUnion('do', [
  z.object({ do: z.literal('add'), kind, record: z.looseObject({ id }) }),
  z.object({ do: z.literal('change'), kind, id, to: z.record(z.string(), z.unknown()) }),
  z.object({ do: z.literal('remove'), kind, id }),
])

const ofCrops = z.union([z.strictObject({ crop: id }), z.strictObject({ family: id })]).nullable()
const yieldGround = { season, seasons: z.array(season).max(100), of: ofCrops }
const yieldSurface = {
  ...yieldGround,
  cellM: z.number().positive(),
  smoothM: z.number().min(0),
}

/** What each request must be asked with. */
const ASKS = {
  listFarms: nothing,
  makeFarm: z.object({
    name: z.string().trim().min(1, 'is empty'),
    units: farm.fields.units.schema,
    currency: farm.fields.currency.schema,
    timezone: farm.fields.timezone.schema,
    origin: z.tuple([z.number().min(-180).max(180), z.number().min(-90).max(90)]).nullable(),
  }),
  makeDemo: nothing,
  bringArchive: z.object({ name: z.string(), bytes, partial: z.boolean() }),
  openFarm: z.object({ id, takeOver: z.boolean(), rebuild: z.boolean().default(false) }),
  forgetFarm: z.object({ id }),
  takeArchive: nothing,
  seeLayers: asOn,
  edit: z.object({ label, edits: z.array(edit).min(1), on: day }),
  remove: z.object({ things: z.array(z.object({ kind, id })).min(1), label, on: day }),
  undo: asOn,
  redo: asOn,
  measure: asOn,
  clearance: asOn,
  supportRuns: asOn,
  supportsSeen: asOn,
  heldSeason: z.object({ season }),
  supportsWear: asOn,
  systemsCompared: z.object({ season }),
  yield: z.object(yieldSurface),
  yieldSmooth: z.object(yieldSurface),
  yieldComparisons: z.object(yieldGround),
  yieldNear: z.object(yieldGround),
  yieldPoints: z.object({
    ...yieldGround,
    cellM: z.number().positive(),
    method: z.enum(['kriging', 'inverse distance']),
  }),
  yieldSeasons: z.object({ ...yieldGround, on: day }),
  casters: asOn,
  bedShade: z.object({ from: day, to: day, skip: z.int().min(0), take: z.int().min(1).max(1000) }),
  climbed: nothing,
  readSiting: z.object({ plan: z.record(z.string(), z.unknown()) }),
  canopyYears: z.object({ on: day, ahead: z.int().min(0).max(100) }),
  pickWeeks: z.object({ season }),
  seasonPicking: z.object({ season, on: day }),
  readPick: z.object({ id }),
  pickHabits: asOn,
  namePlanting: z.object({ id }),
  nearPlantings: z.object({
    at: z.tuple([z.number().min(-540).max(540), z.number().min(-90).max(90)]),
    on: day,
    most: z.int().min(1).max(50),
  }),
  notebookNames: nothing,
  warnings: z.object({ on: day, beds: z.array(id).nullable(), edits: z.array(edit) }),
  bedHistory: z.object({ bed: id }),
  copySeason: z.object({ season, to: z.enum(['same place', 'next side', 'next bed']), by: z.int().min(1).max(999) }),
  readRotation: z.object({ rotation: z.record(z.string(), z.unknown()), on: day }),
  layRotation: z.object({ rotation: rotationBeds, seasons: z.array(season).min(1) }),
  seasonBook: z.object({ season }),
  keepNotePicture: z.object({ bytes }),
  seeNotePicture: z.object({ file: z.string().min(1) }),
  seeCard: z.object({ kind, id, on: day }),
  listRecords: z.object({ kind }),
  recordsOver: z.object({ kind, over: kind, ids: z.array(id) }),
  recordsWith: z.object({ kind, by: z.string().min(1), ids: z.array(id) }),
  listPhotos: nothing,
  addPhoto: z.object({
    files,
    on: day.nullable(),
    crs: z.string().nullable(),
    place,
    at: day,
  }),
  lookIntoFile: z.object({
    files: z.array(file).min(1),
    grid: z.string().min(1).nullable(),
    columns: z.object({ north: z.string(), east: z.string() }).nullable(),
  }),
  seeBringing: z.object(bringAsked),
  bringIn: z.object({ ...bringAsked, label, on: day }),
  sendOut: z.object({ format: z.enum(formats), kinds: z.array(kind).min(1), on: day.nullable() }),
  readTracks: z.object({ name: z.string(), bytes }),
  recordPhoto: z.object({
    id,
    name: z.string().min(1),
    ending: z.string().regex(/^[a-z]+$/),
    on: day.nullable(),
    crs: z.string().nullable(),
    place,
    at: day,
  }),
  photoRoom: nothing,
  freeRemovedPhotos: nothing,
  seePicture: z.object({ of: z.union([files, id]), maxSidePx }),
  photoPicture: z.object({ id, maxSidePx }),
} satisfies Record<RequestName, z.ZodType>

export function isRequest(name: unknown): name is RequestName {
  return typeof name === 'string' && Object.hasOwn(ASKS, name)
}

/** What was asked, looked through. Throws a `Refusal` that names the field. */
export function readAsk<N extends RequestName>(name: N, ask: unknown): Ask<N> {
  const read = ASKS[name].safeParse(ask)
  if (!read.success) throw refusal(read.error, null, 'asked wrongly')
  if (name !== 'edit' && name !== 'warnings') return read.data as Ask<N>
  const { edits, ...rest } = read.data as Ask<'edit'>
  return { ...rest, edits: edits.map(readEdit) } as Ask<N>
}

function readEdit(edit: Edit): Edit {
  if (edit.do === 'remove') return edit
  const kind = kindNamed(edit.kind)
  const [schema, value, record] =
    edit.do === 'add' ? [recordSchema(kind), edit.record, edit.record.id] : [changeSchema(kind), edit.to, edit.id]
  const read = schema.safeParse(value)
  if (!read.success) throw refusal(read.error, record, 'constraint')
  return (edit.do === 'add' ? { ...edit, record: read.data } : { ...edit, to: read.data }) as Edit
}

function refusal(error: z.ZodError, record: string | null, kind: 'asked wrongly' | 'constraint'): Refusal {
  const issue = error.issues[0]!
  const named = issue.code === 'unrecognized_keys' ? issue.keys[0] : issue.path[0]
  const field = record === null ? issue.path.join('.') : named === undefined ? null : String(named)
  const detail = issue.code === 'unrecognized_keys' ? 'is not a field of this kind of record' : issue.message
  return new Refusal(kind, detail, { record, field: field || null })
}
