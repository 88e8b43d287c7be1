import type { Geometry } from 'geojson'
import { z } from 'zod'
import type { AnyRecord, Kind } from '../../geo/model/kind.ts'

const position = z.tuple([z.number(), z.number()]).rest(z.number())
const line = z.array(position)
const shapes = {
  Point: z.object({ type: z.literal('Point'), coordinates: position }),
  LineString: z.object({ type: z.literal('LineString'), coordinates: line.min(2) }),
  Polygon: z.object({ type: z.literal('Polygon'), coordinates: z.array(line.min(4)).min(1) }),
  MultiPolygon: z.object({ type: z.literal('MultiPolygon'), coordinates: z.array(z.array(line.min(4)).min(1)).min(1) }),
}

function geometryOf(kind: Kind): z.ZodType<Geometry> {
  const names = kind.shapes?.includes('any') ? Object.keys(shapes) : (kind.shapes ?? [])
  const allowed = names.map((name) => shapes[name as keyof typeof shapes]) as unknown as z.ZodType<Geometry>[]
  return z.union(allowed as [z.ZodType<Geometry>], 'is not a shape that may lie here')
}

const fieldsOf = (kind: Kind) => Object.entries(kind.fields).filter(([name]) => name !== 'id')

/** A schema of each kind, made once: making one takes as long as reading a hundred records with it. */
function onceOfKind<T>(make: (kind: Kind) => T): (kind: Kind) => T {
  const made = new Map<Kind, T>()
  return (kind) => {
    const known = made.get(kind) ?? make(kind)
    made.set(kind, known)
    return known
  }
}

/** A whole new record of a kind: fields that may be left out come as null. */
export const recordSchema = onceOfKind((kind): z.ZodType<AnyRecord> => {
  return z.strictObject({
    id: z.string().min(1, 'is empty'),
    ...Object.fromEntries(
      fieldsOf(kind).map(([name, field]) => [name, field.required ? field.schema : field.schema.default(null)]),
    ),
    extra: z.record(z.string(), z.unknown()).default({}),
    ...(kind.shapes ? { geom: geometryOf(kind) } : {}),
  }) as unknown as z.ZodType<AnyRecord>
})

/** Some fields of a record of a kind, to be changed. */
export const changeSchema = onceOfKind((kind): z.ZodType<Record<string, unknown>> => {
  return z.strictObject({
    ...Object.fromEntries(fieldsOf(kind).map(([name, field]) => [name, field.schema.optional()])),
    extra: z.record(z.string(), z.unknown()).optional(),
    ...(kind.shapes ? { geom: geometryOf(kind).optional() } : {}),
  }) as unknown as z.ZodType<Record<string, unknown>>
})
