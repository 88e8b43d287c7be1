import type { Kind } from '../../model/kind.ts'
import { kindNamed } from '../../model/kinds.ts'
import { columnsOf } from './columns.ts'
import type { FoundLayer } from './found.ts'
import { isTold, KIND_COLUMN, kindOf } from './partLayers.ts'
import { mayBe, shapeClass } from './shapeClass.ts'
import { kindByName, kindByWord } from './spatialKinds.ts'
import { takeValue } from './takeValue.ts'

/** What a layer's things become, and where each field has its value from. */
export interface LayerPlan {
  /** Name of a spatial kind; null: not taken. */
  readonly kind: string | null
  /** Column by field. Columns of no field are kept beside the record as they are. */
  readonly columns: Readonly<Record<string, string>>
  /** What a field is given where its column has nothing, or there is none; as it is typed. */
  readonly constants: Readonly<Record<string, string>>
}

/** Fields that a person may map; the rest is the farm's own business. */
export function plannedFields(kind: Kind): string[] {
  return Object.keys(kind.fields).filter((name) => name !== 'outside_accepted')
}

/** Column that holds a record's own field `kind`, since `kind` says which kind of record it is. */
export const OWN_KIND = 'what'

/** Other names of fields, in the order in which they are looked for. */
const ALSO: Readonly<Record<string, readonly string[]>> = {
  id: ['uuid', 'guid', 'uid', 'identifier'],
  name: ['title', 'label'],
  note: ['notes', 'comment', 'comments', 'remark', 'remarks', 'description', 'desc', 'cmt'],
  kind: [OWN_KIND, 'type', 'class', 'category', 'sym'],
  species: ['taxon', 'latin_name', 'botanical_name', 'tree_species'],
  on: ['date', 'day', 'observed', 'observed_on', 'time', 'timestamp'],
  severity: ['grade', 'score'],
  field: ['field_id', 'parcel', 'field_name'],
  bed: ['bed_id', 'bed_name'],
  system: ['support_system', 'system_id'],
  height_m: ['height'],
  canopy_radius_m: ['canopy_radius', 'crown_radius'],
  planted: ['planted_on', 'plant_date', 'date_planted'],
  removed: ['removed_on'],
  measured: ['measured_on'],
  made: ['made_on'],
  retired: ['retired_on'],
  put_up: ['put_up_on', 'installed', 'built'],
  taken_down: ['taken_down_on'],
}

/** Field names in a dBASE file are cut to ten letters. */
const DBASE_LETTERS = 10
/** Of so many values half must be readable, else a column is not taken for a field by its name. */
const LOOKED_AT = 20

/** What a layer is, as far as its name, its columns and its shapes leave no doubt. */
export function guessPlan(layer: FoundLayer): LayerPlan {
  const kind = guessKind(layer)
  if (!kind) return { kind: null, columns: {}, constants: {} }
  return { ...guessColumns(layer, kind), kind: kind.name }
}

/** Which column each field of a kind has, by name and by whether its values can be read. */
export function guessColumns(layer: FoundLayer, kind: Kind): Omit<LayerPlan, 'kind'> {
  const names = columnsOf(layer).map(({ name }) => name)
  const columns: Record<string, string> = {}
  const free = () => names.filter((name) => !Object.values(columns).includes(name))
  const tellsKind = layer.features.some(({ values }) => kindByName(values[KIND_COLUMN]) !== null)
  for (const exact of [true, false])
    for (const field of plannedFields(kind)) {
      if (columns[field] !== undefined) continue
      const own = field === 'kind' && (tellsKind || names.includes(OWN_KIND)) ? [] : [field]
      const wanted = exact ? own : (ALSO[field] ?? [])
      const found = free().find((name) => wanted.some((one) => isNamed(name, one)) && canRead(layer, kind, field, name))
      if (found !== undefined) columns[field] = found
    }
  return { columns, constants: layer.hint?.kind === kind.name ? layer.hint.constants : {} }
}

function isNamed(column: string, wanted: string): boolean {
  const plain = column
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, '_')
  return plain === wanted || (wanted.length > DBASE_LETTERS && plain === wanted.slice(0, DBASE_LETTERS))
}

function canRead(layer: FoundLayer, kind: Kind, field: string, column: string): boolean {
  const told = layer.features
    .map(({ values }) => values[column])
    .filter(isTold)
    .slice(0, LOOKED_AT)
  if (told.length === 0) return true
  const read = told.filter((value) => 'value' in takeValue(kind.fields[field]!, value))
  return read.length * 2 >= told.length
}

function guessKind(layer: FoundLayer): Kind | null {
  const [first] = layer.features
  if (!first) return null
  const told = new Set(layer.features.map(kindOf))
  const [only] = told
  if (told.size === 1 && only) return kindNamed(only)
  const shapes = new Set(layer.features.map(({ geometry }) => shapeClass(geometry)))
  const byWord = kindByWord(layer.name)
  if (byWord && [...shapes].every((shape) => mayBe(byWord, shape))) return byWord
  if (layer.hint) return kindNamed(layer.hint.kind)
  const named = layer.features.some(({ values }) => isTold(values.name) || isTold(values.Name))
  const hasKind = layer.features.some(({ values }) => isTold(values[KIND_COLUMN]))
  return shapes.size === 1 && shapes.has('areas') && named && !hasKind ? kindNamed('fields') : null
}
