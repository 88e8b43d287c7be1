import { useSignalEffect } from '@preact/signals'
import { useId } from 'preact/hooks'
import type { OfCrops } from '../../desk/door.ts'
import { askCrops, crops } from '../state/crops.ts'
import { seasonsSoFar, yieldOf, yieldSpan } from '../state/yieldGround.ts'
import { seasonsWords } from './groundWords.ts'

/** Of which crops and seasons the sheet tells. */
export function YieldAsked() {
  const id = useId()
  useSignalEffect(() => {
    if (crops.value === null) void askCrops()
  })
  const all = seasonsSoFar.value
  const known = crops.value ?? []
  const families = [...new Set(known.map(({ family }) => family))].sort((a, b) => a.localeCompare(b))
  const named = [...known].sort((a, b) => a.name.localeCompare(b.name))
  return (
    <div class="yield-asked">
      <div class="entry">
        <label for={`${id} of`}>Of</label>
        <select
          id={`${id} of`}
          value={JSON.stringify(yieldOf.value)}
          onChange={(event) => {
            yieldOf.value = JSON.parse(event.currentTarget.value) as OfCrops | null
          }}
        >
          <option value="null">all crops</option>
          <optgroup label="One family">
            {families.map((family) => (
              <option key={family} value={JSON.stringify({ family })}>
                {family}
              </option>
            ))}
          </optgroup>
          <optgroup label="One crop">
            {named.map(({ id, name }) => (
              <option key={id} value={JSON.stringify({ crop: id })}>
                {name}
              </option>
            ))}
          </optgroup>
        </select>
      </div>
      <div class="entry">
        <label for={`${id} in`}>In</label>
        <select
          id={`${id} in`}
          value={yieldSpan.value}
          onChange={(event) => {
            yieldSpan.value = event.currentTarget.value as typeof yieldSpan.value
          }}
        >
          <option value="one">{all.at(-1)}</option>
          {all.length > 2 && <option value="two">{seasonsWords(all.slice(-2))}</option>}
          {all.length > 1 && <option value="all">{seasonsWords(all)}</option>}
        </select>
      </div>
    </div>
  )
}
