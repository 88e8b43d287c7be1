import type { ComponentChildren } from 'preact'

interface Props {
  readonly label: string
  readonly options: readonly { readonly value: string; readonly words: ComponentChildren }[]
  readonly chosen: readonly string[]
  readonly onTap: (value: string) => void
  /** Read out only, where the words about it say what it is. */
  readonly quietLabel?: boolean
}

/** A few answers, each a tap; one tapped is pressed in. */
export function Chips({ label, options, chosen, onTap, quietLabel = false }: Props) {
  return (
    <fieldset class="chips">
      <legend class={quietLabel ? 'unseen' : ''}>{label}</legend>
      {options.map(({ value, words }) => (
        <button key={value} type="button" aria-pressed={chosen.includes(value)} onClick={() => onTap(value)}>
          {words}
        </button>
      ))}
    </fieldset>
  )
}
