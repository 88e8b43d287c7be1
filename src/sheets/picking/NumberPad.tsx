import { entry, offeredUnits, tell, unitTold } from './entry.ts'
import { afterKey, type PadKey } from './numberPad.ts'

const KEYS: readonly PadKey[] = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '.', '0', '½']

/** So many units stand beside the digits; the rest are one tap further. */
const BESIDE = 3

/** Big keys for the quantity, and beside them what it is told in. */
export function NumberPad({ onMore }: { readonly onMore: () => void }) {
  const told = unitTold.value
  const first = offeredUnits.value.slice(0, BESIDE)
  const beside = told && !first.includes(told) ? [told, ...first.slice(0, BESIDE - 1)] : first
  return (
    <div class="pad">
      <fieldset class="pad-digits">
        <legend class="unseen">Digits</legend>
        {KEYS.map((key) => (
          <button key={key} type="button" onClick={() => tell({ typed: afterKey(entry.value.typed, key) })}>
            {key === '.' ? DECIMAL : key}
            {key === '½' && <span class="unseen"> and a half</span>}
            {key === '.' && <span class="unseen"> decimal</span>}
          </button>
        ))}
      </fieldset>
      <fieldset class="pad-units">
        <legend class="unseen">Told in</legend>
        {beside.map(({ unit }) => (
          <button key={unit} type="button" aria-pressed={unit === told?.unit} onClick={() => tell({ unit })}>
            {unit}
          </button>
        ))}
        <button type="button" onClick={onMore}>
          more<span class="unseen"> containers and their weights</span>
        </button>
      </fieldset>
    </div>
  )
}

/** The sign before decimals, as the device has it. */
export const DECIMAL = new Intl.NumberFormat().formatToParts(0.5).find(({ type }) => type === 'decimal')?.value ?? '.'
