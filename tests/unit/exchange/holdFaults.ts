import { expect, it } from 'vitest'
import { faultsWith, type Given } from './archiveOf.ts'

export type Case = readonly [
  what: string,
  files: Readonly<Record<string, Given | null>>,
  file: string,
  record: string,
  field: string,
  reason: RegExp,
]

/** Each hostile file with the one fault that it must give. */
export function holdFaults(cases: readonly Case[]): void {
  it.each(cases)('%s', (_what, files, file, record, field, reason) => {
    const faults = faultsWith(files)
    expect(faults.map((fault) => [fault.file, fault.record, fault.field])).toEqual([[file, record, field]])
    expect(faults[0]!.reason).toMatch(reason)
  })
}
