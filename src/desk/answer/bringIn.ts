import type { Geometry } from 'geojson'
import sqliteUrl from 'sql.js/dist/sql-wasm-browser.wasm?url'
import type { Fault } from '../../../geo/exchange/archive.ts'
import { checkInPlane, type Outside } from '../../../geo/exchange/checkInPlane.ts'
import { driverForFile } from '../../../geo/exchange/drivers.ts'
import { gatherFaults } from '../../../geo/exchange/faults.ts'
import { columnsOf } from '../../../geo/exchange/layers/columns.ts'
import type { FoundLayer } from '../../../geo/exchange/layers/found.ts'
import { partLayers } from '../../../geo/exchange/layers/partLayers.ts'
import { guessColumns, guessPlan, type LayerPlan } from '../../../geo/exchange/layers/plan.ts'
import { judgeLayers, newFarm, OF_FARM } from '../../../geo/exchange/layers/readFound.ts'
import { mayBe, shapeClass } from '../../../geo/exchange/layers/shapeClass.ts'
import { SPATIAL } from '../../../geo/exchange/layers/spatialKinds.ts'
import { soundPart } from '../../../geo/exchange/soundPart.ts'
import { writeZip } from '../../../geo/exchange/writeZip.ts'
import type { AnyRecord } from '../../../geo/model/kind.ts'
import { KINDS, kindNamed } from '../../../geo/model/kinds.ts'
import { uuid7 } from '../../../geo/model/uuid.ts'
import { positionsOf } from '../../../geo/plane/geometry.ts'
import { type LonLat, lonAbout, lonWithin180 } from '../../../geo/plane/lonLat.ts'
import { PLANE_SRID } from '../../../geo/plane/plane.ts'
import type { Edit } from '../../../geo/store/edit.ts'
import { readOrigin } from '../../../geo/store/origin.ts'
import { readRecords } from '../../../geo/store/row.ts'
import { inTrialPlane } from '../../../geo/store/trialPlane.ts'
import type { AskedPlan, BringAsked, BringPreview, BroughtShapes, FoundInFile, PhotoFile } from '../door.ts'
import type { Keeper } from '../farm/keeper.ts'
import { paceOf } from '../farm/pace.ts'
import { placeFarm } from '../farm/placeFarm.ts'
import { Refusal } from '../refusal.ts'
import { type Answers, type Asked, farmOf } from './answers.ts'
import { keptStep } from './keptStep.ts'

/** What was found in the file looked into last, for each keeper. */
const held = new WeakMap<Keeper, readonly FoundLayer[]>()

/** More shapes than these are not drawn before they are kept. */
const MOST_SHOWN = 20_000

export const lookIntoFile: Answers['lookIntoFile'] = async ({ files, grid, columns }, asked) => {
  const { name, bytes } = oneFile(files)
  const driver = await driverForFile(name, bytes)
  if (!driver) throw new Refusal('archive', `No format is known by the ending of ${name}.`, { field: 'file' })
  if (!driver.look)
    throw new Refusal('archive', `${name} is an archive, which is a farm of its own: open it from the start card.`, {
      field: 'file',
    })
  const pace = paceOf(asked, `reading ${name}`)
  const found = await driver.look(bytes, { fileName: name, grid, columns, pace, sqliteUrl })
  const layers = partLayers(found.layers)
  held.set(asked.keeper, layers)
  return {
    fileName: name,
    format: driver.title,
    layers: layers.map(shownLayer),
    notes: found.notes,
    asksGrid: found.asksGrid,
    table: found.table ?? null,
    middle: middleOf(layers),
  }
}

/** One file as it is, several (the parts of a shapefile) packed together. */
function oneFile(files: readonly PhotoFile[]): PhotoFile {
  const shp = files.find(({ name }) => /\.shp$/i.test(name))
  if (files.length === 1 && !shp) return files[0]!
  if (!shp) throw new Refusal('archive', 'Bring in one file after another; only the parts of a shapefile go together.')
  const packed = writeZip(new Map(files.map((file) => [file.name, file.bytes])))
  return { name: `${shp.name}.zip`, bytes: packed }
}

function shownLayer(layer: FoundLayer): FoundInFile {
  const shapes = [...new Set(layer.features.map(({ geometry }) => shapeClass(geometry)))]
  return {
    name: layer.name || layer.file,
    count: layer.features.length,
    shapes: shapes.join(', '),
    columns: columnsOf(layer),
    kinds: SPATIAL.filter((kind) => shapes.every((shape) => mayBe(kind, shape))).map(({ name }) => name),
    plan: guessPlan(layer),
  }
}

function middleOf(layers: readonly FoundLayer[]): LonLat | null {
  let box: [number, number, number, number] | null = null
  for (const { features } of layers)
    for (const { geometry } of features)
      if (geometry)
        for (const p of positionsOf(geometry)) {
          const lon: number = box ? lonAbout(box[0], p[0]!) : p[0]!
          box = box
            ? [Math.min(box[0], lon), Math.min(box[1], p[1]!), Math.max(box[2], lon), Math.max(box[3], p[1]!)]
            : [lon, p[1]!, lon, p[1]!]
        }
  const middle = (a: number, b: number) => Math.round(((a + b) / 2) * 1e7) / 1e7
  return box && [lonWithin180(middle(box[0], box[2])), middle(box[1], box[3])]
}

export const seeBringing: Answers['seeBringing'] = async (ask, asked) => {
  const { sound, faulty, leftOut, notes, full, outside } = await judged(ask, asked, false)
  const { shapes, placeless } = shapesOf(held.get(asked.keeper) ?? [], full, sound, faulty)
  const counts = KINDS.map(({ name }) => ({ kind: name, count: sound.filter(({ kind }) => kind === name).length }))
  return {
    plans: full,
    counts: counts.filter(({ count }) => count > 0),
    shapes: {
      kept: shapes.kept.slice(0, MOST_SHOWN),
      leftOut: shapes.leftOut.slice(0, MOST_SHOWN),
      notTaken: shapes.notTaken.slice(0, MOST_SHOWN),
    },
    undrawn: {
      placeless,
      beyond: Object.values(shapes).reduce((sum, { length }) => sum + Math.max(0, length - MOST_SHOWN), 0),
    },
    leftOut,
    notes,
    outside: outsideOf(outside),
  }
}

type Shaped = { readonly record: AnyRecord }

/** What the file holds by what would become of it, and how many things have nothing that could be drawn. */
function shapesOf(
  layers: readonly FoundLayer[],
  plans: readonly LayerPlan[],
  sound: readonly Shaped[],
  faulty: readonly Shaped[],
): { readonly shapes: BroughtShapes; readonly placeless: number } {
  const withGeom = (list: readonly Shaped[]) => list.flatMap(({ record }) => record.geom ?? [])
  const leftOut = withGeom(faulty)
  const notTaken: Geometry[] = []
  let placeless = 0
  layers.forEach(({ features }, i) => {
    const isTaken = plans[i]!.kind !== null
    for (const { geometry, refused } of features) {
      const shape = geometry ?? refused
      if (!shape) placeless += 1
      else if (!isTaken) notTaken.push(shape)
      else if (!geometry) leftOut.push(shape)
    }
  })
  return { shapes: { kept: withGeom(sound), leftOut, notTaken }, placeless }
}

export const bringIn: Answers['bringIn'] = async ({ label, on, ...ask }, asked) => {
  const { edits, leftOut } = await judged(ask, asked, true)
  if (edits.length === 0) throw new Refusal('archive', 'Nothing in the file can be kept.', { faults: [...leftOut] })
  asked.signal.throwIfAborted()
  return { changed: await keptStep(asked, label, edits, on), leftOut }
}

/** What the layers come to in the open farm; `toKeep` gives a farm without ground its plane first, which the step records. */
async function judged({ plans, replaces, acceptsOutside }: BringAsked, asked: Asked, toKeep: boolean) {
  const { keeper } = asked
  const layers = held.get(keeper)
  if (!layers || layers.length !== plans.length)
    throw new Refusal('not found', 'The file is not at hand any more: choose it again.')
  const full = layers.map((layer, i) => fullPlan(layer, plans[i]!))
  const farm = farmOf(asked)
  const { known, origin } = await farm.db.transaction(async (tx) => {
    const records = new Map<string, readonly AnyRecord[]>()
    for (const kind of [...SPATIAL, kindNamed('systems')]) records.set(kind.name, await readRecords(tx, kind))
    return { known: records, origin: await readOrigin(tx) }
  })
  const record = { ...newFarm(farm.entry.name), origin_lon: origin?.[0] ?? null, origin_lat: origin?.[1] ?? null }
  const newId = () => uuid7(keeper.nowMs(), keeper.random(10))
  const judgement = judgeLayers(
    layers.map((layer, i) => ({ layer, plan: full[i]! })),
    record,
    { known, newId, tellMade: false, replaces },
  )
  const { reading, notes, inTheirFile, taken } = judgement
  const ours = new Set(taken.drafts.map((draft) => draft.record))
  const soundNow = () =>
    [...soundPart(reading.drafts, reading.unreadable).records].flatMap(([kind, records]) =>
      records.filter((one) => ours.has(one)).map((one) => ({ kind, record: one })),
    )
  const there = new Set(replaces ? [...known].flatMap(([kind, list]) => list.map(({ id }) => `${kind} ${id}`)) : [])
  const editsNow = () => soundNow().map((one) => editOf(one, there))
  if (toKeep && !origin) {
    await placeFarm(farm, editsNow())
    farm.isPlaced = false
  }
  const faults = gatherFaults()
  const middle = origin || toKeep ? null : middleOf(layers)
  const outside = await farm.db.transaction(async (tx): Promise<Outside[]> => {
    const look = (srid: number) => checkInPlane(tx, reading.drafts, faults, { srid, acceptsOutside })
    return middle ? inTrialPlane(tx, middle, look) : origin || toKeep ? look(PLANE_SRID) : []
  })
  const sound = soundNow()
  const isSound = new Set(sound.map(({ record }) => record))
  const { leftOut } = soundPart(reading.drafts, reading.unreadable)
  return {
    full,
    sound,
    faulty: reading.drafts.filter(({ record }) => ours.has(record) && !isSound.has(record)),
    notes,
    outside: outside.filter(({ draft }) => ours.has(draft.record)),
    leftOut: inTheirFile(leftOut.filter((fault: Fault) => fault.record !== OF_FARM)),
    edits: sound.map((one) => editOf(one, there)),
  }
}

/** How many of what reach out, and how far the farthest. */
function outsideOf(outside: readonly Outside[]): BringPreview['outside'] {
  return {
    counts: ['beds', 'rows']
      .map((kind) => ({ kind, count: outside.filter(({ draft }) => draft.kind.name === kind).length }))
      .filter(({ count }) => count > 0),
    farthestM: Math.max(0, ...outside.map(({ reachM }) => reachM)),
  }
}

function fullPlan(layer: FoundLayer, { kind, columns, constants }: AskedPlan): LayerPlan {
  if (kind === null) return { kind, columns: {}, constants: {} }
  if (columns) return { kind, columns, constants }
  const guessed = guessColumns(layer, kindNamed(kind))
  return { kind, columns: guessed.columns, constants: { ...guessed.constants, ...constants } }
}

/** What is new is added; what takes the place of a record that is there changes what the file says of it. */
function editOf({ kind, record }: { kind: string; record: AnyRecord }, there: ReadonlySet<string>): Edit {
  if (!there.has(`${kind} ${record.id}`)) return { do: 'add', kind, record }
  const { id, extra, ...told } = record
  const known = Object.entries(told).filter(([, value]) => value !== null && value !== undefined)
  return {
    do: 'change',
    kind,
    id,
    to: { ...Object.fromEntries(known), ...(Object.keys(extra).length > 0 && { extra }) },
  }
}
