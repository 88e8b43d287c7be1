import { existsSync, readdirSync } from 'node:fs'

/** A PostgreSQL with PostGIS installed here. */
export interface Installed {
  readonly version: number
  /** Where `initdb` and `postgres` are. */
  readonly programs: string
}

/** The newest PostgreSQL with PostGIS that is installed as Debian lays them out, if any. */
export function installedServer(): Installed | undefined {
  const root = '/usr/lib/postgresql'
  const versions = existsSync(root) ? readdirSync(root).map(Number) : []
  return versions
    .filter((version) => existsSync(`${root}/${version}/bin/postgres`))
    .filter((version) => existsSync(`/usr/share/postgresql/${version}/extension/postgis.control`))
    .sort((a, b) => b - a)
    .map((version) => ({ version, programs: `${root}/${version}/bin` }))[0]
}

/** True when the store's tests can run on a server: `DATABASE_URL` names one, or one is installed. */
export function serverAtHand(): boolean {
  return Boolean(process.env.DATABASE_URL) || installedServer() !== undefined
}
