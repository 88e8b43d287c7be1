import type { FoundFeature, FoundLayer } from './found.ts'
import { shapeClass } from './shapeClass.ts'
import { kindByName } from './spatialKinds.ts'

/** Column that says which kind of record a thing is, in files that were given out from here. */
export const KIND_COLUMN = 'kind'

/** Columns that only records of one kind and shape have. */
const TELLING = [
  { shape: 'areas', column: 'field', kind: 'beds' },
  { shape: 'lines', column: 'bed', kind: 'rows' },
  { shape: 'lines', column: 'system', kind: 'supports' },
  { shape: 'points', column: 'species', kind: 'trees' },
] as const

/**
 * Parts each layer so that what is in one can be records of one kind: by what its column `kind` says, by what only one
 * kind has, and by sort of shape. A layer that is of one sort stays as it is.
 */
export function partLayers(layers: readonly FoundLayer[]): FoundLayer[] {
  return layers.flatMap((layer) => {
    const parts = new Map<string, FoundFeature[]>()
    for (const feature of layer.features) {
      const key = keyOf(feature)
      const part = parts.get(key)
      if (part) part.push(feature)
      else parts.set(key, [feature])
    }
    if (parts.size <= 1) return [layer]
    return [...parts].map(([key, features]) => ({ ...layer, name: partName(layer.name, key), features }))
  })
}

function partName(name: string, key: string): string {
  return name === '' || name === key ? key : `${name}: ${key}`
}

function keyOf(feature: FoundFeature): string {
  return kindOf(feature) ?? shapeClass(feature.geometry)
}

/** The kind of record that a thing says it is, or that it can only be. */
export function kindOf({ geometry, values }: FoundFeature): string | null {
  const told = kindByName(values[KIND_COLUMN])
  if (told) return told.name
  const shape = shapeClass(geometry)
  const only = TELLING.find((one) => one.shape === shape && isTold(values[one.column]))
  return only?.kind ?? null
}

export function isTold(value: unknown): boolean {
  return value !== undefined && value !== null && value !== ''
}
