import type { YieldReport } from '../state/door.ts'
import type { YieldView } from './yieldView.ts'

/** The desk's report as the sheet shows it. */
export function readReport(report: YieldReport): YieldView {
  return report as unknown as YieldView
}
