import type { Warning } from '../../desk/door.ts'
import { From } from '../../ui/From.tsx'
import { units } from '../state/farm.ts'
import { warningWords } from './warningWords.ts'

/** Warnings with their reasons, each with its source a tap away. `nameOf` heads each with what it is about, where they are of several plantings. */
export function WarningList({
  of,
  nameOf,
}: {
  readonly of: readonly Warning[]
  readonly nameOf?: (warning: Warning) => string
}) {
  return (
    <ul class="warnings">
      {of.map((warning, i) => {
        const { head, why, source } = warningWords(warning, units.value)
        return (
          <li key={`${warning.planting} ${warning.kind} ${i}`}>
            <p>
              <strong>{nameOf ? nameOf(warning) : head}</strong> {why}
            </p>
            <From about={head}>{source}.</From>
          </li>
        )
      })}
    </ul>
  )
}
