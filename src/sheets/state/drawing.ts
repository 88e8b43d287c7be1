import { batch, signal } from '@preact/signals'
import type { Card, DeskFault } from '../../desk/door.ts'
import type { Drawn, EditGeometry, Finished, LiveMeasures, Session, Tool } from '../../draw/session.ts'
import type { LayerChanges } from '../../map/farmMap.ts'
import type { FormKind } from '../ground/formFields.ts'
import { proposal, proposeOnMap } from '../ground/propose.ts'
import { sameShape } from '../ground/sameShape.ts'
import { choose, chosen } from './chosen.ts'
import { openFarm } from './farm.ts'
import { farmMap } from './mapHandle.ts'
import { newId } from './newId.ts'
import { showPane } from './pane.ts'
import { layers } from './shown.ts'
import { doEdits } from './steps.ts'

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
/** A shape just changed that the database would not keep, with what would make it kept all the same. */
export const reshapeFault = signal<{ readonly fault: DeskFault; readonly again: (() => void) | null } | null>(null)

const KIND_OF: Readonly<Record<Drawn, FormKind>> = {
  field: 'fields',
  bed: 'beds',
  'bed outline': 'beds',
  row: 'rows',
  support: 'supports',
  tree: 'trees',
}

/** Takes a tool up; what was being drawn is given up. */
export async function takeUp(wanted: Tool): Promise<void> {
  layDown()
  const map = farmMap.value
  if (!map) return
  showPane('card')
  tool.value = wanted
  const { startSession } = await import('../../draw/startSession.ts')
  if (tool.value !== wanted) return
  session.value = startSession(map, wanted, openFarm.value?.origin ?? null, {
    onMeasure: (measures) => {
      live.value = measures
    },
    onFinish: (finished) => {
      over()
      if (wanted.do === 'draw') propose(KIND_OF[wanted.what], finished)
      else if (!sameShape(finished.geometry, wanted.geometry))
        void reshape(wanted.kind, wanted.id, finished.geometry, {})
    },
    onCancel: over,
  })
}

/** Gives up what is being drawn, if anything is. */
export function layDown(): void {
  session.value?.cancel()
  over()
}

function over(): void {
  if (tool.value) showPane('map')
  batch(() => {
    tool.value = null
    session.value = null
    live.value = null
  })
}

/** Opens the form of a shape that is not kept yet; `more` goes into its values, or beside them. */
export function propose(
  kind: FormKind,
  { geometry, measures }: Finished,
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

async function reshape(
  kind: FormKind,
  id: string,
  geom: EditGeometry,
  accept: Readonly<Record<string, unknown>>,
): Promise<void> {
  reshapeFault.value = null
  const reply = await doEdits(`Reshape ${kind === 'trees' ? 'a tree' : kind.slice(0, -1)}`, [
    { do: 'change', kind, id, to: { geom, ...accept } },
  ])
  if (reply.ok) return
  showAsKept(kind, id)
  const more = reply.fault.accept
  reshapeFault.value = { fault: reply.fault, again: more ? () => void reshape(kind, id, geom, more) : null }
  showPane('card')
}

/** The map showed the new shape at once; the old one is back until it is kept after all. */
function showAsKept(kind: FormKind, id: string): void {
  const put = layers.value?.[kind].features.filter((feature) => feature.properties.id === id) ?? []
  void farmMap.value?.patch({ [kind]: { put, gone: [] } } as LayerChanges)
}
