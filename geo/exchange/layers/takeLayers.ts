import type { AnyRecord, Kind } from '../../model/kind.ts'
import { KINDS, kindNamed } from '../../model/kinds.ts'
import { blankDraft, type Draft, type Fault } from '../archive.ts'
import { type Faults, shown } from '../faults.ts'
import { whyNotKept } from '../readValue.ts'
import { fitShape } from './fitShape.ts'
import type { FoundFeature, FoundLayer } from './found.ts'
import { isTold, KIND_COLUMN } from './partLayers.ts'
import type { LayerPlan } from './plan.ts'
import { plannedFields } from './plan.ts'
import { putInHolders } from './putInHolders.ts'
import { SPATIAL } from './spatialKinds.ts'
import { takeValue } from './takeValue.ts'

/** Records that layers became, to be judged with the rest of the farm. */
export interface Taken {
  readonly drafts: Draft[]
  /** What was left out, made up or changed on the way. */
  readonly notes: readonly Fault[]
  /** The layer that each draft came from; support systems that were made have none. */
  readonly from: ReadonlyMap<Draft, FoundLayer>
}

export interface TakeHow {
  /** Records of the farm that they are brought into, by kind; empty for a farm of their own. */
  readonly known: ReadonlyMap<string, readonly AnyRecord[]>
  /** An id for the n-th thing of its file, where it has none. */
  readonly newId: (kind: Kind, n: number) => string
  /** True: ids and names that were made are noted one by one. */
  readonly tellMade: boolean
  /** True: what has the id of a record that is known takes its place; else it is a fault. */
  readonly replaces: boolean
}

/** Makes records of layers by what each is planned to be. Faults of single values go to `faults`. */
export function takeLayers(
  planned: readonly { readonly layer: FoundLayer; readonly plan: LayerPlan }[],
  how: TakeHow,
  faults: Faults,
): Taken {
  const notes: (Fault & { readonly n: number })[] = []
  const from = new Map<Draft, FoundLayer>()
  const drafts: Draft[] = []
  const ids = new Set<string>()
  for (const { layer, plan } of planned)
    for (const feature of layer.features) {
      const note = (field: string, reason: string) =>
        notes.push({ n: feature.n, file: layer.file, record: feature.where, field, reason })
      if (plan.kind === null) {
        if (how.tellMade)
          note('kind', `is left out: say what it is by a property kind (${SPATIAL.map((k) => k.name).join(', ')})`)
        continue
      }
      for (const draft of takeFeature(feature, kindNamed(plan.kind), plan, how, ids, note, faults)) {
        drafts.push(draft)
        from.set(draft, layer)
      }
    }
  drafts.sort((a, b) => KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind))
  const holderNotes = putInHolders(drafts, how.known, (draft) => from.get(draft)?.file ?? '', faults)
  notes.sort((a, b) => (a.file === b.file ? a.n - b.n : 0))
  return { drafts, notes: [...notes.map(({ n: _, ...fault }) => fault), ...holderNotes], from }
}

function takeFeature(
  feature: FoundFeature,
  kind: Kind,
  plan: LayerPlan,
  how: TakeHow,
  ids: Set<string>,
  note: (field: string, reason: string) => void,
  faults: Faults,
): Draft[] {
  const { shapes, note: fitted } = feature.geometry ? fitShape(feature.geometry, kind) : { shapes: [null], note: null }
  if (fitted !== null) note('geometry', fitted)
  const id = idOf(feature, kind, plan, how, ids, note)
  return shapes.map((shape, i) => {
    const where = shapes.length > 1 ? `${feature.where}, part ${i + 1}` : feature.where
    const draft = blankDraft(kind, where, i === 0 ? id : freeId(`${id}-${i + 1}`, kind, ids))
    takeValues(draft, feature, plan, how, i === 0 ? note : () => undefined, faults)
    if (shape) draft.record.geom = shape
    else
      for (const flaw of feature.flaws.length > 0 ? feature.flaws : ['is missing']) faults.of(draft, 'geometry', flaw)
    return draft
  })
}

function idOf(
  feature: FoundFeature,
  kind: Kind,
  plan: LayerPlan,
  how: TakeHow,
  ids: Set<string>,
  note: (field: string, reason: string) => void,
): string {
  const column = plan.columns.id
  const told = takeValue(kind.fields.id!, column === undefined ? feature.id : (feature.values[column] ?? feature.id))
  if ('value' in told && typeof told.value === 'string') {
    ids.add(`${kind.name} ${told.value}`)
    return told.value
  }
  const id = freeId(how.newId(kind, feature.n), kind, ids)
  if (how.tellMade) note('id', `has no id and was given ${shown(id)}`)
  return id
}

function freeId(wanted: string, kind: Kind, ids: Set<string>): string {
  let id = wanted
  for (let more = 2; ids.has(`${kind.name} ${id}`); more++) id = `${wanted}-${more}`
  ids.add(`${kind.name} ${id}`)
  return id
}

function takeValues(
  draft: Draft,
  { values, n }: FoundFeature,
  plan: LayerPlan,
  how: TakeHow,
  note: (field: string, reason: string) => void,
  faults: Faults,
): void {
  const { kind, record } = draft
  for (const name of plannedFields(kind)) {
    if (name === 'id') continue
    const column = plan.columns[name]
    const told = column === undefined ? undefined : values[column]
    const field = kind.fields[name]!
    const value = isTold(told) ? told : (plan.constants[name] ?? told)
    if (name === 'name' && field.required && !isTold(value)) {
      record.name = how.tellMade ? record.id : `${kind.name.slice(0, -1)} ${n}`
      if (how.tellMade) note('name', 'has no name and was given its id')
      continue
    }
    // What a bed or row lies in is found by its place where the file does not say it.
    if (!isTold(value) && (field.refers === 'fields' || field.refers === 'beds')) continue
    const read = takeValue(field, value)
    if ('reason' in read) faults.of(draft, name, read.reason)
    else record[name] = read.value
  }
  const used = new Set(Object.values(plan.columns))
  const extra = Object.entries(values).filter(
    ([name, value]) => !used.has(name) && !(name === KIND_COLUMN && (!isTold(value) || value === kind.name)),
  )
  for (const [name, value] of extra) {
    const unkept = whyNotKept(name) ?? whyNotKept(value)
    if (unkept) faults.of(draft, name, unkept)
  }
  record.extra = Object.fromEntries(extra.filter(([name]) => !Object.hasOwn(kind.fields, name) || !used.has(name)))
}
