import { batch, signal } from '@preact/signals'
import type { LayerFeature, LayerName } from '../../../geo/layers/layer.ts'
import type { Changed, DeskFault, SupportRun } from '../../desk/door.ts'
import { ask, type Layers, type Measured } from './door.ts'
import { latest } from './latest.ts'
import { whenFarmLeft } from './leaving.ts'

/** The farm as on the day shown. `shownOn` is that day: while another is being asked for, it lags behind. */
export const shownOn = signal<string | null>(null)
export const layers = signal<Layers | null>(null)
export const measured = signal<Measured | null>(null)
export const runs = signal<readonly SupportRun[]>([])
export const showingFault = signal<DeskFault | null>(null)
/** The last step's changes to the map, so that it is patched and not drawn anew. */
export const patched = signal<{ readonly layers: Changed['layers']; readonly n: number } | null>(null)
/** Counts every time the layers are replaced whole. */
export const wholeLayers = signal(0)

/** The day being asked for, if any is. */
let coming: { readonly day: string; readonly shown: Promise<void> } | null = null

/** Asks for the farm as on a day; of many asked in haste the last is shown, and one on its way is not asked again. */
export function showDayOfFarm(day: string): Promise<void> {
  if (coming?.day === day) return coming.shown
  const shown = showDay(day).finally(() => {
    if (coming?.shown === shown) coming = null
  })
  coming = { day, shown }
  return shown
}

const showDay = latest(async (day: string) => {
  const [seen, told, stand] = await Promise.all([
    ask('seeLayers', { on: day }),
    ask('measure', { on: day }),
    ask('supportRuns', { on: day }),
  ])
  batch(() => {
    if (!seen.ok || !told.ok || !stand.ok) {
      showingFault.value = [seen, told, stand].flatMap((reply) => (reply.ok ? [] : [reply.fault]))[0] ?? null
      return
    }
    showingFault.value = null
    layers.value = seen.value
    measured.value = told.value
    runs.value = stand.value
    wholeLayers.value += 1
    shownOn.value = day
  })
})

/** Takes in what one step changed: layers and measures are patched. */
export function takeChanged(changed: Changed): void {
  batch(() => {
    if (layers.value) layers.value = patchLayers(layers.value, changed.layers)
    if (measured.value) measured.value = patchMeasured(measured.value, changed.measured)
    patched.value = { layers: changed.layers, n: (patched.value?.n ?? 0) + 1 }
  })
}

whenFarmLeft(() => {
  coming = null
  batch(() => {
    shownOn.value = null
    layers.value = null
    measured.value = null
    runs.value = []
    patched.value = null
  })
})

function patchLayers(before: Layers, changes: Changed['layers']): Layers {
  const after: { [L in LayerName]: Layers[L] } = { ...before }
  const patch = <L extends LayerName>(name: L) => {
    const change = changes[name] as { put: LayerFeature<L>[]; gone: string[] } | undefined
    if (!change) return
    const replaced = new Set([...change.gone, ...change.put.map((feature) => feature.properties.id)])
    const kept = (before[name].features as LayerFeature<L>[]).filter(({ properties }) => !replaced.has(properties.id))
    after[name] = { ...before[name], features: [...kept, ...change.put] }
  }
  for (const name of Object.keys(changes) as LayerName[]) patch(name)
  return after
}

/** Measures of what changed replace the old ones in place; new ones come last. */
export function patchMeasured(before: Measured, changed: Changed['measured']): Measured {
  return {
    fields: patchList(before.fields, changed.fields, changed.goneFields),
    beds: patchList(before.beds, changed.beds, changed.goneBeds),
  }
}

function patchList<T extends { readonly id: string }>(
  before: readonly T[],
  put: readonly T[],
  gone: readonly string[],
) {
  const fresh = new Map(put.map((item) => [item.id, item]))
  const left = before.filter(({ id }) => !gone.includes(id)).map((item) => fresh.get(item.id) ?? item)
  const there = new Set(left.map(({ id }) => id))
  return [...left, ...put.filter(({ id }) => !there.has(id))]
}
