import { useSignalEffect } from '@preact/signals'
import { Choice } from '../../ui/Choice.tsx'
import type { Yielded } from '../state/door.ts'
import { on } from '../state/where.ts'
import { yieldGround } from '../state/yieldGround.ts'
import { askYieldMore, type YieldPart, yieldMoreFault, yieldPart } from '../state/yieldMore.ts'
import { yieldStale } from '../state/yields.ts'
import { BedYields } from './BedYields.tsx'
import { Compared } from './Compared.tsx'
import { NearIt } from './NearIt.tsx'
import { SeasonByTurn } from './SeasonByTurn.tsx'
import { ToLookAt } from './ToLookAt.tsx'
import { ZoneList } from './ZoneList.tsx'

const PARTS: readonly { value: YieldPart; words: string }[] = [
  { value: 'zones', words: 'zones' },
  { value: 'seasons', words: 'seasons' },
  { value: 'compared', words: 'compared' },
  { value: 'near', words: 'near' },
  { value: 'to look at', words: 'look' },
]

/** Below the season's figure: zones and beds, season against season, what was set against what, what lies near, what to look at. */
export function YieldMore({ view }: { readonly view: Yielded }) {
  useSignalEffect(() => {
    const asked = { part: yieldPart.value, ground: yieldGround.value, on: on.value, step: yieldStale.value }
    if (asked.part !== 'zones') void askYieldMore(asked)
  })
  const part = yieldPart.value
  return (
    <div class="supports-more">
      <Choice
        label="Told of yield"
        options={PARTS}
        value={part}
        onChange={(value) => {
          yieldPart.value = value
        }}
      />
      {part !== 'zones' && yieldMoreFault.value && (
        <p class="fault" role="alert">
          {yieldMoreFault.value.detail}
        </p>
      )}
      {part === 'zones' && (
        <>
          <ZoneList view={view} />
          <BedYields view={view} />
        </>
      )}
      {part === 'seasons' && <SeasonByTurn />}
      {part === 'compared' && <Compared />}
      {part === 'near' && <NearIt />}
      {part === 'to look at' && <ToLookAt />}
    </div>
  )
}
