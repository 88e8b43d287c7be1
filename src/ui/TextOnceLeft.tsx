import { useState } from 'preact/hooks'

interface Props {
  readonly id: string
  readonly value: string
  readonly placeholder?: string
  readonly 'aria-invalid': boolean
  readonly 'aria-describedby': string | undefined
  readonly onFocus?: () => void
  readonly onTold: (text: string) => void
}

/** A text entry that tells what was typed once it is left; what is being typed stands, whatever is drawn anew. */
export function TextOnceLeft({ value, onTold, ...rest }: Props) {
  const [typed, setTyped] = useState<string | null>(null)
  return (
    <input
      {...rest}
      type="text"
      autocomplete="off"
      value={typed ?? value}
      onInput={(event) => setTyped(event.currentTarget.value)}
      onChange={(event) => {
        setTyped(null)
        onTold(event.currentTarget.value)
      }}
    />
  )
}
