import { availableParallelism, cpus, totalmem } from 'node:os'
import { afterAll } from 'vitest'

/** A figure of the bench: what it is, what was measured, and what is aimed at. */
export type Figure = readonly [figure: string, measured: string, target: string]

/** Prints the machine and a file's figures as a table when its last test is done. */
export function useFigures(): (...figure: Figure) => void {
  const told: Figure[] = []
  afterAll(() => {
    const [cpu] = cpus()
    const machine = `${cpu?.model.trim() ?? 'unknown processor'}, ${availableParallelism()} cores, ${(totalmem() / 2 ** 30).toFixed(0)} GiB`
    const rows: Figure[] = [['figure', 'measured', 'target'], ['---', '---', '---'], ...told]
    console.info(`Machine: ${machine}, Node ${process.versions.node}`)
    console.info(rows.map((row) => `| ${row.join(' | ')} |`).join('\n'))
  })
  return (...figure) => void told.push(figure)
}

export const ms = (value: number): string => `${Math.round(value)} ms`

/** The middle one of times, of an even number of them the upper. */
export const middleOf = (times: readonly number[]): number =>
  [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!

/** How long work takes, in ms: the first time, and the best of three after a second. */
export async function timed(work: () => Promise<unknown>): Promise<{ coldMs: number; bestMs: number }> {
  const once = async () => {
    const begun = performance.now()
    await work()
    return performance.now() - begun
  }
  const coldMs = await once()
  await once()
  return { coldMs, bestMs: Math.min(await once(), await once(), await once()) }
}
