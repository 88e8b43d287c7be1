import { batch, signal } from '@preact/signals'
import type { AnyRecord } from '../../../geo/model/kind.ts'
import { planeAbout } from '../../../geo/plane/plane.ts'
import type { Card } from '../../desk/door.ts'
import type { Drawn, EditGeometry, Finished, LiveMeasures, PlacedThing, Session, Tool } from '../../draw/session.ts'
import type { Segment } from '../../draw/snap.ts'
import type { LayerChanges } from '../../map/farmMap.ts'
import { type FormKind, KIND_WORD } from '../ground/formFields.ts'
import { proposal, proposeOnMap } from '../ground/propose.ts'
import { sameShape } from '../ground/sameShape.ts'
import { withHole } from '../ground/withHole.ts'
import { lengthFigure, told } from '../show/figures.ts'
import { type Act, act } from './act.ts'
import { choose, chosen } from './chosen.ts'
import { keepsSquare, snaps } from './drawChoices.ts'
import { openFarm, units } from './farm.ts'
import { editFault, keepEdits } from './keepEdits.ts'
import { keepStretches } from './keepStretches.ts'
import { farmMap } from './mapHandle.ts'
import { newId } from './newId.ts'
import { showPane } from './pane.ts'
import { holdThings } from './placed.ts'
import { along, askRiders, recordsWith, riders } from './riders.ts'
import { boxing, selecting, several, takeIn } from './several.ts'
import { layers } from './shown.ts'

/** A record that waits for its name and the rest before it is kept, or one whose values are being changed. */
export interface Pending {
  readonly id: string
  readonly kind: FormKind
  readonly label: string
  /** Set for a record just drawn. */
  readonly geometry: EditGeometry | null
  readonly values: Readonly<Record<string, unknown>>
  /** Told with a new record beyond its fields. */
  readonly extra?: Readonly<Record<string, unknown>>
}

export const tool = signal<Tool | null>(null)
export const live = signal<LiveMeasures | null>(null)
export const session = signal<Session | null>(null)
export const pending = signal<Pending | null>(null)
/** The edge that was tapped last, while one is waited for. */
export const edgeTapped = signal<Segment | null>(null)

/** What is made of what is drawn; null where it becomes no record of its own. */
const KIND_OF: Readonly<Record<Drawn, FormKind | null>> = {
  field: 'fields',
  'field rectangle': 'fields',
  bed: 'beds',
  'bed outline': 'beds',
  row: 'rows',
  support: 'supports',
  tree: 'trees',
  'structure point': 'structures',
  'structure line': 'structures',
  'structure area': 'structures',
  observation: 'observations',
  hole: null,
  cut: null,
  measure: null,
}

/** Takes a tool up; what was being drawn is given up. */
export async function takeUp(wanted: Tool): Promise<void> {
  layDown()
  const map = farmMap.value
  if (!map) return
  editFault.value = null
  showPane('card')
  tool.value = wanted
  selecting.value = wanted.do === 'select'
  const { startSession } = await import('../../draw/startSession.ts')
  if (tool.value !== wanted || !(await seekRiders(wanted)) || tool.value !== wanted) return
  session.value = startSession(map, wanted, openFarm.value?.origin ?? null, {
    onMeasure: (measures) => {
      live.value = measures
    },
    onFinish: (finished) => {
      const there = standing
      over()
      return finish(wanted, finished, there)
    },
    onCancel: over,
    showLength: (lengthM) => told(lengthFigure(lengthM, units.value)),
    snaps: () => snaps.value,
    keepsSquare: () => keepsSquare.value,
    along: () => along.value,
    onSelect: takeIn,
    boxes: () => boxing.value,
    ...(wanted.do === 'arrange' &&
      wanted.edges && {
        onEdge: (edge: Segment) => {
          edgeTapped.value = edge
        },
      }),
  })
}

/** What is being moved or reshaped with all that stands in it, as it was, and the plantings of its rows. */
interface Standing {
  readonly things: readonly PlacedThing[]
  readonly plantings: readonly AnyRecord[]
}
const NOTHING: Standing = { things: [], plantings: [] }
let standing = NOTHING

/**
 * Asks what stands in the beds that are to be moved or reshaped, before they are: nothing must be left behind because it
 * was not known yet. False where it can't be read; nothing is taken up then.
 */
async function seekRiders(wanted: Tool): Promise<boolean> {
  if (wanted.do !== 'edit' && wanted.do !== 'move') return true
  const things: readonly PlacedThing[] =
    wanted.do === 'move' ? wanted.things : [{ kind: wanted.kind, id: wanted.id, geometry: wanted.geometry }]
  try {
    const found = await askRiders(things, wanted.do === 'move' ? 'move' : 'reshape')
    const rows = [...things, ...found].flatMap(({ kind, id }) => (kind === 'rows' ? [id] : []))
    const plantings = await recordsWith('plantings', 'row', rows)
    if (tool.value !== wanted) return false
    riders.value = found
    standing = { things: [...things, ...found], plantings }
    return true
  } catch (error) {
    if (tool.value === wanted) layDown()
    const detail = `What stands there could not be read: ${error instanceof Error ? error.message : String(error)}`
    editFault.value = { fault: { kind: 'not found', field: null, record: null, detail }, again: null }
    return false
  }
}

/** Gives up what is being drawn, if anything is. */
export function layDown(): void {
  session.value?.cancel()
  over()
}

/** Opens an act; what was being drawn is given up. */
export function startAct(wanted: Act): void {
  layDown()
  act.value = wanted
  void takeUp({ do: 'arrange', edges: wanted.do === 'align' })
  showPane('card')
}

export function closeAct(): void {
  act.value = null
  layDown()
}

function over(): void {
  if (tool.value?.do === 'arrange') act.value = null
  if (tool.value) showPane(several.value.length > 0 ? 'card' : 'map')
  batch(() => {
    tool.value = null
    session.value = null
    selecting.value = false
    live.value = null
    riders.value = []
    standing = NOTHING
    edgeTapped.value = null
  })
}

async function finish(used: Tool, finished: Finished, there: Standing): Promise<void> {
  const { geometry } = finished
  if (used.do === 'move') return keepPlaced(moveWords(used.things), finished.others, there)
  if (used.do === 'edit') {
    if (sameShape(geometry, used.geometry)) return
    const { kind, id } = used
    return keepPlaced(`Reshape ${KIND_WORD[kind]}`, [{ kind, id, geometry }, ...finished.others], there)
  }
  if (used.do !== 'draw') return
  if (used.what === 'hole' && used.of && geometry.type === 'Polygon') {
    const { kind, id } = used.of
    return keepPlaced(`Take a hole out of ${KIND_WORD[kind]}`, [
      { kind, id, geometry: withHole(used.of.geometry, geometry) },
    ])
  }
  if (used.what === 'cut' && used.of && geometry.type === 'LineString') {
    const things = await holdThings([used.of])
    if (things.length > 0) startAct({ do: 'split', things, cut: geometry })
    return
  }
  const kind = KIND_OF[used.what]
  if (kind) propose(kind, finished)
}

function moveWords(things: readonly PlacedThing[]): string {
  const [first] = things
  return things.length === 1 && first ? `Move ${KIND_WORD[first.kind]}` : `Move ${things.length} things`
}

/** Keeps things where they have come, as one step; what grows in a row that became longer or shorter stays where it is. */
async function keepPlaced(label: string, placed: readonly PlacedThing[], there = NOTHING): Promise<void> {
  if (placed.length === 0) return
  const edits = placed.map(({ kind, id, geometry }) => ({ do: 'change' as const, kind, id, to: { geom: geometry } }))
  const origin = openFarm.value?.origin
  const kept = origin ? keepStretches(there.things, placed, there.plantings, planeAbout(origin)) : []
  await keepEdits(label, [...edits, ...kept], (ok) => {
    if (ok) return
    showAsKept(placed)
    showPane('card')
  })
}

/** Opens the form of a shape that is not kept yet; `more` goes into its values, or beside them. */
export function propose(
  kind: FormKind,
  { geometry, measures }: Pick<Finished, 'geometry' | 'measures'>,
  more: Pick<Partial<Pending>, 'values' | 'extra'> = {},
): void {
  dropPending()
  const id = newId()
  const { label, values } = proposal(kind, geometry, measures)
  const { extra } = more
  pending.value = { id, kind, geometry, label, values: { ...values, ...more.values }, ...(extra && { extra }) }
  proposeOnMap(kind, id, geometry, measures)
  showPane('card')
}

/** Opens the form of a record that is kept already. */
export function changeRecord(card: Card, kind: FormKind, label: string): void {
  dropPending()
  pending.value = { id: card.id, kind, label, geometry: null, values: card.record }
  showPane('card')
}

/** Shuts the form; a shape that was not kept leaves the map. */
export function dropPending(): void {
  const { kind, id, geometry } = pending.value ?? {}
  if (kind && id && geometry) void farmMap.value?.patch({ [kind]: { put: [], gone: [id] } })
  pending.value = null
  if (!chosen.value) showPane('map')
}

/** The form's record has been kept. */
export function pendingKept(): void {
  const kept = pending.value
  pending.value = null
  if (kept) void choose({ kind: kept.kind, id: kept.id })
}

/** The map showed things in their new places at once; the old ones are back until they are kept after all. */
export function showAsKept(things: readonly PlacedThing[]): void {
  const changes: Record<string, { put: unknown[]; gone: string[] }> = {}
  for (const kind of new Set(things.map((thing) => thing.kind))) {
    const ids = new Set(things.flatMap((thing) => (thing.kind === kind ? [thing.id] : [])))
    const put = layers.value?.[kind].features.filter(({ properties }) => ids.has(properties.id)) ?? []
    changes[kind] = { put, gone: [] }
  }
  void farmMap.value?.patch(changes as LayerChanges)
}
