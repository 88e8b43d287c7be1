import { Entry } from './Entry.tsx'

interface Props {
  readonly label: string
  readonly hint?: string | undefined
  readonly fault?: string | null | undefined
  /** Only whole numbers are meant: a phone shows keys without a point. */
  readonly whole?: boolean
  readonly name?: string
  /** As it is typed. */
  readonly value: string
  readonly onType: (text: string) => void
}

/** An entry for a number, told as typed: whoever asks for it reads it, and says what is wrong with it. */
export function NumberEntry({ label, hint, fault, whole = false, name, value, onType }: Props) {
  return (
    <Entry label={label} hint={hint} fault={fault}>
      {(names) => (
        <input
          {...names}
          {...(name !== undefined && { name })}
          type="text"
          inputMode={whole ? 'numeric' : 'decimal'}
          autocomplete="off"
          value={value}
          onInput={(event) => onType(event.currentTarget.value)}
        />
      )}
    </Entry>
  )
}
