import type { Database } from '../store/database.ts'

/** One crop, by its id, or all crops of one family, by its name as the crops tell it. */
export type OfCrops = { readonly crop: string } | { readonly family: string }

/** The crops meant, by id. Throws a RangeError where the farm has none such. */
export async function cropsOf(db: Database, of: OfCrops): Promise<ReadonlySet<string>> {
  const [column, name] = 'crop' in of ? ['id', of.crop] : ['family', of.family]
  const crops = await db.rows<{ id: string }>(`select id from crops where ${column} = $1`, [name])
  if (crops.length === 0) throw new RangeError(`the farm has no ${'crop' in of ? 'crop' : 'family'} ${name}`)
  return new Set(crops.map(({ id }) => id))
}
