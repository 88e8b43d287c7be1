import type { Edit } from '../../desk/door.ts'

const underWay = new Set<string>()

/**
 * Does what is asked, unless the very same is under way already, as after a tap that came twice: then the first goes on for
 * both, and this one never settles, so that whoever asked again does nothing more.
 */
export async function unlessUnderWay<T>(what: string, work: () => Promise<T>): Promise<T> {
  if (underWay.has(what)) return new Promise<never>(() => undefined)
  underWay.add(what)
  try {
    return await work()
  } finally {
    underWay.delete(what)
  }
}

/** What a step is told by, whichever new ids its records got. */
export function samenessOf(label: string, edits: readonly Edit[]): string {
  const fresh = new Map(edits.flatMap((edit, n) => (edit.do === 'add' ? [[edit.record.id, `new ${n}`] as const] : [])))
  return JSON.stringify([label, edits], (_, told) => (typeof told === 'string' ? (fresh.get(told) ?? told) : told))
}
