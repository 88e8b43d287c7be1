import type { Warning } from '../../desk/door.ts'
import { From } from '../../ui/From.tsx'
import { choose } from '../state/chosen.ts'
import { crops, varieties } from '../state/crops.ts'
import { units } from '../state/farm.ts'
import { plantings } from '../state/plantings.ts'
import { measured } from '../state/shown.ts'
import { warnings } from '../state/warnings.ts'
import { oncePerPair } from './oncePerPair.ts'
import { WARNING_HEADS, warningWords } from './warningWords.ts'

const KINDS = Object.keys(WARNING_HEADS) as Warning['kind'][]

/** What to look at again, by kind: of what stands on the day, and what is set out within a year of it. None of it stands in the way. */
export function ToLookAt() {
  const all = oncePerPair(warnings.value ?? [])
  if (all.length === 0) return null
  return (
    <section aria-label="To look at again">
      <h2>To look at again</h2>
      {KINDS.map((kind) => {
        const of = all.filter((warning) => warning.kind === kind)
        return of.length === 0 ? null : <OfKind key={kind} head={WARNING_HEADS[kind]} of={of} />
      })}
    </section>
  )
}

function OfKind({ head, of }: { readonly head: string; readonly of: readonly Warning[] }) {
  const names = nameOfPlanting()
  return (
    <details class="to-look-at">
      <summary>
        {head} <span class="count">{of.length}</span>
      </summary>
      <ul class="warnings">
        {of.map((warning, i) => (
          <li key={`${warning.planting} ${i}`}>
            <p>
              <button
                type="button"
                class="in-row"
                onClick={() => void choose({ kind: 'plantings', id: warning.planting })}
              >
                {names(warning)}
              </button>{' '}
              {warningWords(warning, units.value).why}
            </p>
          </li>
        ))}
      </ul>
      <From about={head}>{[...new Set(of.map(({ source }) => source))].join('. ')}.</From>
    </details>
  )
}

function nameOfPlanting(): (warning: Warning) => string {
  const cropOf = new Map(crops.value?.map(({ id, name }) => [id, name]))
  const variety = new Map(varieties.value.map((one) => [one.id, `${cropOf.get(one.crop) ?? ''}, ${one.name}`]))
  const named = new Map(plantings.value?.map((one) => [one.id, variety.get(one.variety)]))
  const beds = new Map(measured.value?.beds.map(({ id, name }) => [id, name]))
  return ({ planting, bed }) => `${named.get(planting) ?? 'A planting'} in ${beds.get(bed) ?? 'a bed'}:`
}
