import type { Database } from '../../../geo/store/database.ts'
import { reckonComparisons } from '../../../geo/yield/compare/reckonComparisons.ts'
import { reckonNear } from '../../../geo/yield/near/reckonNear.ts'
import type { OfCrops } from '../../../geo/yield/ofCrops.ts'
import { readPoints, reckonPoints } from '../../../geo/yield/points/reckonPoints.ts'
import { reckonSeasons } from '../../../geo/yield/seasons/reckonSeasons.ts'
import { WrongUse } from '../wrongUse.ts'
import { comparisonsTable } from './comparisonsTable.ts'
import { nearTable, questionsTable } from './nearTable.ts'
import { METHODS, pointsData, pointsTable } from './pointsTable.ts'
import { seasonsTable } from './seasonsTable.ts'

/** What the yield of a season can be told with besides. */
export interface AlsoAsked {
  readonly season: number
  readonly seasons: readonly number[]
  readonly of: OfCrops | null
  readonly on: string
}

/** As data for `--json`, and as tables for people. */
export interface AlsoTold {
  readonly data: unknown
  readonly text: string
}

const ALSO: Readonly<Record<string, (db: Database, asked: AlsoAsked) => Promise<AlsoTold>>> = {
  async seasons(db, asked) {
    const { together: _, ...told } = await reckonSeasons(db, asked)
    return { data: told, text: seasonsTable(told) }
  },
  async comparisons(db, asked) {
    const told = await reckonComparisons(db, asked)
    return { data: told, text: comparisonsTable(told) }
  },
  async near(db, asked) {
    const told = await reckonNear(db, asked)
    const { questions: _, ...data } = told
    return { data, text: nearTable(told) }
  },
  async points(db, asked) {
    const read = await readPoints(db, asked)
    const told = await Promise.all(METHODS.map(async (method) => ({ method, ...(await reckonPoints(read, method)) })))
    return { data: told.map(pointsData), text: pointsTable(told) }
  },
  async questions(db, asked) {
    const told = await reckonNear(db, asked)
    return { data: told.questions, text: questionsTable(told) }
  },
}

export const ALSO_NAMES = Object.keys(ALSO)

/** The names given to `--also`; throws `WrongUse` for one that is not known. */
export function alsoGiven(given: string | boolean | undefined): string[] {
  if (given === undefined) return []
  const names = String(given) === 'all' ? ALSO_NAMES : String(given).split(',')
  const wrong = names.find((name) => !Object.hasOwn(ALSO, name))
  if (wrong !== undefined) throw new WrongUse(`--also ${wrong}: one of ${ALSO_NAMES.join(', ')}, or all`)
  return names
}

/** Reckons what is also asked for, in order. */
export async function tellAlso(
  db: Database,
  names: readonly string[],
  asked: AlsoAsked,
): Promise<Map<string, AlsoTold>> {
  const told = new Map<string, AlsoTold>()
  for (const name of names) told.set(name, await ALSO[name]!(db, asked))
  return told
}
