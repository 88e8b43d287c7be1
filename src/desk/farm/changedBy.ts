import { LAYERS, type Layer, type LayerName } from '../../../geo/layers/layer.ts'
import { readLayers, type Scope } from '../../../geo/layers/readLayers.ts'
import { touchedBy } from '../../../geo/layers/touchedBy.ts'
import { measureBeds } from '../../../geo/measure/measure.ts'
import { measureFields } from '../../../geo/measure/measureFields.ts'
import { planOnce } from '../../../geo/store/planOnce.ts'
import type { Step } from '../../../geo/store/step.ts'
import type { Changed } from '../door.ts'
import type { FarmInHand } from './keeper.ts'
import { readHistory } from './readHistory.ts'
import { readFarm } from './showFarm.ts'

/** Whose records a layer shows, where that is not the kind it is named after. */
const KIND_OF: Partial<Record<LayerName, string>> = { canopies: 'trees', stretches: 'plantings' }

/** What a step changed, read from the database after it: only the layers' features and the figures that it touched. */
export async function changedBy({ db }: FarmInHand, step: Step, on: string): Promise<Changed> {
  return db.transaction(async (tx) => {
    await planOnce(tx)
    const { scope, beds, fields } = await touchedBy(tx, step.changes)
    const read = await readLayers(tx, on, scope)
    const layers: Record<string, { put: Layer['features']; gone: string[] }> = {}
    for (const name of LAYERS) {
      const change = layerChange(name, read[name], scope)
      if (change) layers[name] = change
    }
    const fieldsThere = fields.length > 0 ? await measureFields(tx, on, fields) : []
    const bedsThere = beds.length > 0 ? await measureBeds(tx, on, beds) : []
    const gone = (ids: readonly string[], there: readonly { id: string }[]) => {
      const known = new Set(there.map((one) => one.id))
      return ids.filter((id) => !known.has(id))
    }
    return {
      step: step.id,
      label: step.label,
      records: step.changes.map(({ kind, record }) => ({ kind, id: record })),
      layers: layers as Changed['layers'],
      measured: {
        fields: fieldsThere,
        beds: bedsThere,
        goneBeds: gone(beds, bedsThere),
        goneFields: gone(fields, fieldsThere),
      },
      history: await readHistory(tx),
      farm: step.changes.some(({ kind }) => kind === 'farm') ? await readFarm(tx) : null,
    }
  })
}

function layerChange(name: LayerName, read: Layer, scope: Scope): { put: Layer['features']; gone: string[] } | null {
  const ids = scope[KIND_OF[name] ?? name] ?? []
  if (ids.length === 0) return null
  const there = new Set(read.features.map((feature) => feature.properties.id))
  return { put: read.features, gone: ids.filter((id) => !there.has(id)) }
}
