import { useSignalEffect } from '@preact/signals'
import { Choice } from '../../ui/Choice.tsx'
import { askCompared, askHeld, askWear, seen, supportsFault, supportsPart, supportsStale } from '../state/supports.ts'
import { on, season } from '../state/where.ts'
import { Bill } from './Bill.tsx'
import { HeldSeason } from './HeldSeason.tsx'
import { Load } from './Load.tsx'
import { OverYears } from './OverYears.tsx'
import { Wear } from './Wear.tsx'

const PARTS = [
  { value: 'bill', words: 'bill' },
  { value: 'season', words: 'season' },
  { value: 'years', words: 'years' },
  { value: 'load', words: 'load' },
  { value: 'wear', words: 'wear' },
] as const

/** Below the sheet's tables: what runs take, how the season is held, years compared, loads, and what broke. */
export function SupportsMore() {
  useSignalEffect(() => {
    if (supportsPart.value === 'season' && supportsStale.value >= 0) void askHeld(season.value)
    if (supportsPart.value === 'wear' && supportsStale.value >= 0) void askWear(on.value)
  })
  useSignalEffect(() => {
    if (supportsPart.value === 'wear' && supportsStale.value >= 0) void askCompared(season.value)
  })
  const part = supportsPart.value
  return (
    <div class="supports-more">
      <Choice
        label="Told of supports"
        options={PARTS}
        value={part}
        onChange={(value) => {
          supportsPart.value = value
        }}
      />
      {supportsFault.value && (
        <p class="fault" role="alert">
          {supportsFault.value.detail}
        </p>
      )}
      {seen.value === null ? (
        <p class="hint">Reckoning</p>
      ) : (
        <>
          {part === 'bill' && <Bill />}
          {part === 'season' && <HeldSeason />}
          {part === 'years' && <OverYears />}
          {part === 'load' && <Load />}
          {part === 'wear' && <Wear />}
        </>
      )}
    </div>
  )
}
