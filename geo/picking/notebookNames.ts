import type { Container } from '../model/containers.ts'
import { containers } from '../model/containers.ts'
import type { Database } from '../store/database.ts'
import { readRecords } from '../store/row.ts'
import { type PlantingPlace, plantingPlaces } from './plantingPlaces.ts'

interface Named {
  readonly id: string
  readonly name: string
}

/** The farm's names that a notebook's words are matched with, and what tells a pick that is there already. */
export interface NotebookNames {
  readonly crops: readonly Named[]
  readonly varieties: readonly (Named & { readonly crop: string })[]
  readonly beds: readonly Named[]
  readonly plantings: readonly PlantingPlace[]
  readonly containers: readonly Container[]
  readonly picks: readonly {
    readonly on: string
    readonly planting: string | null
    readonly bed: string | null
    readonly quantity: number
    readonly unit: string
  }[]
}

export async function notebookNames(db: Database): Promise<NotebookNames> {
  return {
    crops: await db.rows<Named>('select id, name from crops order by ord'),
    varieties: await db.rows<Named & { crop: string }>('select id, name, crop from varieties order by ord'),
    beds: await db.rows<Named>('select id, name from beds order by ord'),
    plantings: await plantingPlaces(db),
    containers: (await readRecords(db, containers)) as unknown as Container[],
    picks: await db.rows('select "on", planting, bed, quantity, unit from picks order by ord'),
  }
}
