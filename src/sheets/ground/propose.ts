import type { LineString } from 'geojson'
import type { EditGeometry, LiveMeasures } from '../../draw/session.ts'
import type { LayerChanges } from '../../map/farmMap.ts'
import { farmMap } from '../state/mapHandle.ts'
import { layers, measured } from '../state/shown.ts'
import { on } from '../state/where.ts'
import type { FormKind } from './formFields.ts'
import { holderOf } from './lies.ts'
import { nextName } from './nextName.ts'
import { sideOf } from './sideOf.ts'

/** Sensible values for a shape just drawn: the next free name, the field or bed that it lies in, its side. */
export function proposal(
  kind: FormKind,
  geometry: EditGeometry,
  measures: LiveMeasures,
): { readonly label: string; readonly values: Readonly<Record<string, unknown>> } {
  switch (kind) {
    case 'fields': {
      const names = measured.value?.fields.map(({ name }) => name) ?? []
      return { label: 'New field', values: { name: nextName(names.filter(isNumbered), 'Field ') } }
    }
    case 'beds':
      return { label: 'New bed', values: bedValues(geometry) }
    case 'rows':
      return { label: 'New row', values: rowValues(geometry as LineString) }
    case 'trees':
      return { label: 'New tree', values: { species: layers.value?.trees.features.at(-1)?.properties.species ?? null } }
    case 'supports':
      return {
        label: `New support, ${Math.round(measures.lengthM ?? 0)} m`,
        values: { system: layers.value?.supports.features.at(-1)?.properties.system ?? null },
      }
    case 'structures':
      return { label: 'New structure', values: { kind: STRUCTURE_OF[geometry.type] } }
    case 'observations':
      return { label: 'New observation', values: { on: on.value } }
  }
}

/** What is most often drawn so. */
const STRUCTURE_OF: Readonly<Record<EditGeometry['type'], string>> = {
  Point: 'gate',
  LineString: 'fence',
  Polygon: 'shed',
  MultiPolygon: 'shed',
}

const isNumbered = (name: string) => /^Field \d+$/.test(name)

function bedValues(geometry: EditGeometry) {
  const field =
    holderOf(geometry, layers.value?.fields.features ?? [])?.id ??
    (measured.value?.fields.length === 1 ? measured.value.fields[0]!.id : null)
  const inField = measured.value?.beds.filter((bed) => bed.field === field).map(({ name }) => name) ?? []
  const initial =
    measured.value?.fields
      .find(({ id }) => id === field)
      ?.name.charAt(0)
      .toUpperCase() ?? 'B'
  return { field, name: nextName(inField, initial) }
}

function rowValues(line: LineString) {
  const bed = holderOf(line, layers.value?.beds.features ?? [])
  const size = measured.value?.beds.find(({ id }) => id === bed?.id)
  const outline = layers.value?.beds.features.find(({ properties }) => properties.id === bed?.id)?.geometry
  const side = size && outline?.type === 'Polygon' ? sideOf(line, outline, size) : null
  return { bed: bed?.id ?? null, side, name: bed && side ? `${bed.name} ${side}` : null }
}

/** Shows a shape that is not kept yet, under the id that its record will have. */
export function proposeOnMap(kind: FormKind, id: string, geometry: EditGeometry, measures: LiveMeasures): void {
  const feature = (properties: object) => ({
    put: [{ type: 'Feature', geometry, properties: { id, ...properties } }],
    gone: [],
  })
  const name = ''
  const area_m2 = measures.areaM2 ?? 0
  const length_m = measures.lengthM ?? 0
  const changes: Readonly<Record<FormKind, object>> = {
    fields: feature({ name, area_m2 }),
    beds: feature({ name, field: '', area_m2, standing: true, stock: 0, dressed: null }),
    rows: feature({ bed: '', name, side: null, length_m }),
    trees: feature({ species: '', name, height_m: null, canopy_radius_m: null, source: false }),
    supports: feature({ system: '', system_name: '', permanent: false, put_up: null, length_m }),
    structures: feature({ kind: STRUCTURE_OF[geometry.type], name: null }),
    observations: feature({ on: on.value, kind: '', severity: null }),
  }
  void farmMap.value?.patch({ [kind]: changes[kind] } as LayerChanges)
}
