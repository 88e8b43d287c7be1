import openSqlite from 'sql.js'

/** What the engine may be asked for by EPSG code: WGS 84 in degrees and geocentric, Web Mercator, UTM on WGS 84. */
const KEPT_SRIDS = `(4326, 4978, 4979, 3857)`
const UTM = 'between 32601 and 32660 or code between 32701 and 32760'

/** WGS 84's ensemble; its members must stay, or PROJ fails on every CRS that names it. */
const WGS84_ENSEMBLE = 6326

/** Tables that stay whole: small, and asked for by name. */
const WHOLE = [
  'metadata',
  'unit_of_measure',
  'celestial_body',
  'ellipsoid',
  'prime_meridian',
  'builtin_authorities',
  'conversion_method',
  'conversion_param',
  'coordinate_operation_method',
  'authority_to_authority_preference',
  'versioned_auth_name_mapping',
]

/** Rows that stay of the other tables, in an order in which each looks only at tables cut before it. */
const KEPT: Readonly<Record<string, string>> = {
  geodetic_crs: `auth_name = 'EPSG' and code in ${KEPT_SRIDS}`,
  projected_crs: `auth_name = 'EPSG' and (code in ${KEPT_SRIDS} or code ${UTM})`,
  conversion_table: `(auth_name, code) in (select conversion_auth_name, conversion_code from projected_crs)`,
  geodetic_datum_ensemble_member: `ensemble_auth_name = 'EPSG' and ensemble_code = ${WGS84_ENSEMBLE}`,
  geodetic_datum: `(auth_name, code) in (
    select datum_auth_name, datum_code from geodetic_crs
    union select member_auth_name, member_code from geodetic_datum_ensemble_member)`,
  coordinate_system: `(auth_name, code) in (
    select coordinate_system_auth_name, coordinate_system_code from geodetic_crs
    union select coordinate_system_auth_name, coordinate_system_code from projected_crs)`,
  axis: `(coordinate_system_auth_name, coordinate_system_code) in (select auth_name, code from coordinate_system)`,
  usage: `case object_table_name
    when 'geodetic_crs' then (object_auth_name, object_code) in (select auth_name, code from geodetic_crs)
    when 'projected_crs' then (object_auth_name, object_code) in (select auth_name, code from projected_crs)
    when 'conversion' then (object_auth_name, object_code) in (select auth_name, code from conversion_table)
    when 'geodetic_datum' then (object_auth_name, object_code) in (select auth_name, code from geodetic_datum)
    else false end`,
  extent: `(auth_name, code) in (select extent_auth_name, extent_code from usage)`,
  scope: `(auth_name, code) in (select scope_auth_name, scope_code from usage)`,
}

/**
 * PROJ's database cut to what the engine may be asked for (some hundred coordinate systems of thousands). A plane given
 * by its PROJ text needs no row of it. Its triggers go, since they forbid rows that it has already.
 */
export async function projSubset(projDb: Uint8Array): Promise<Uint8Array> {
  const { Database } = await openSqlite()
  const db = new Database(projDb)
  const names = (type: string) =>
    (db.exec(`select name from sqlite_master where type = '${type}'`)[0]?.values ?? []).map(([name]) => String(name))
  for (const trigger of names('trigger')) db.run(`drop trigger "${trigger}"`)
  for (const [table, kept] of Object.entries(KEPT)) db.run(`delete from "${table}" where (${kept}) is not true`)
  for (const table of names('table')) if (!(table in KEPT) && !WHOLE.includes(table)) db.run(`delete from "${table}"`)
  db.run('pragma page_size = 1024')
  db.run('vacuum')
  const bytes = db.export()
  db.close()
  return bytes
}
