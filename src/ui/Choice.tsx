interface Props<V extends string> {
  readonly label: string
  readonly options: readonly { readonly value: V; readonly words: string }[]
  readonly value: V
  readonly onChange: (value: V) => void
}

/** One of a few, side by side: radio buttons drawn as a strip. */
export function Choice<V extends string>({ label, options, value, onChange }: Props<V>) {
  return (
    <fieldset class="choice">
      <legend class="unseen">{label}</legend>
      {options.map((option) => (
        <label key={option.value} class={option.value === value ? 'on' : ''}>
          <input
            type="radio"
            class="unseen"
            name={label}
            checked={option.value === value}
            onChange={() => onChange(option.value)}
          />
          {option.words}
        </label>
      ))}
    </fieldset>
  )
}
