import { type Database, quoted } from './database.ts'

/** What a query gave: columns in their order, the first geometry column if there is one, and rows by column name. */
export interface SqlAnswer {
  readonly columns: readonly string[]
  readonly geometry: string | null
  /** Geometries are GeoJSON in lon/lat; whole numbers beyond 2^53 are texts of their digits, since a number would be rounded. */
  readonly rows: readonly Record<string, unknown>[]
}

/**
 * Answers one query that only reads. It is made a temporary view first, so nothing but a query passes, and then read in
 * a transaction that can't write. Geometries in the farm's plane come back in lon/lat.
 */
export async function sqlAnswer(db: Database, query: string): Promise<SqlAnswer> {
  await db.rows(`create temporary view asked as ${query.replace(/;\s*$/, '')}`)
  return db.transaction(async (tx) => {
    await tx.rows('set transaction read only')
    const columns = await tx.rows<{ name: string; type: string }>(
      `select attname as name, format_type(atttypid, null) as type from pg_attribute
       where attrelid = 'pg_temp.asked'::regclass and attnum > 0 order by attnum`,
    )
    const isPlace = (type: string) => type === 'geometry' || type === 'geography'
    const selected = columns.map(({ name, type }) => {
      if (type === 'bigint') return `${exact(quoted(name))} as ${quoted(name)}`
      if (!isPlace(type)) return quoted(name)
      const place = `${quoted(name)}::geometry`
      const lonLat = `case st_srid(${place}) when 990001 then lon_lat(${place}) else ${place} end`
      return `st_asgeojson(${lonLat}, 15)::jsonb as ${quoted(name)}`
    })
    const rows = await tx.rows<Record<string, unknown>>(`select ${selected.join(', ')} from pg_temp.asked`)
    return {
      columns: columns.map((column) => column.name),
      geometry: columns.find((column) => isPlace(column.type))?.name ?? null,
      rows,
    }
  })
}

/** A number, or its digits as text where no number of the program's holds it. */
function exact(column: string): string {
  const isWide = `${column} not between -9007199254740991 and 9007199254740991`
  return `case when ${isWide} then to_jsonb(${column}::text) else to_jsonb(${column}) end`
}
