import { afterKey, type PadKey } from '../picking/numberPad.ts'

const KEYS: readonly PadKey[] = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '0']

interface Props {
  readonly typed: string
  readonly onTyped: (typed: string) => void
  /** Counts that are likely meant, each a tap. */
  readonly offers: readonly { readonly words: string; readonly count: number }[]
}

/** Big keys for a whole number, and beside them the counts that are likely meant. */
export function CountPad({ typed, onTyped, offers }: Props) {
  return (
    <div class="pad count-pad">
      <fieldset class="pad-digits">
        <legend class="unseen">Digits</legend>
        {KEYS.map((key) => (
          <button key={key} type="button" onClick={() => onTyped(afterKey(typed, key))}>
            {key}
          </button>
        ))}
      </fieldset>
      <fieldset class="pad-units">
        <legend class="unseen">Counts that may be meant</legend>
        {offers.map(({ words, count }) => (
          <button key={words} type="button" onClick={() => onTyped(String(count))}>
            {words}
          </button>
        ))}
      </fieldset>
    </div>
  )
}
