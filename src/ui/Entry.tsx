import type { ComponentChildren } from 'preact'
import { useId } from 'preact/hooks'

interface Props {
  readonly label: string
  readonly hint?: string | undefined
  /** What is wrong with what was typed, told right here. */
  readonly fault?: string | null | undefined
  readonly children: (names: {
    readonly id: string
    readonly 'aria-invalid': boolean
    readonly 'aria-describedby': string | undefined
  }) => ComponentChildren
}

/** One entry of a form: its label, what is typed, a hint, and the fault where there is one. */
export function Entry({ label, hint, fault, children }: Props) {
  const id = useId()
  const told = [hint ? `${id}-hint` : '', fault ? `${id}-fault` : ''].filter(Boolean).join(' ')
  return (
    <div class={fault ? 'entry wrong' : 'entry'}>
      <label for={id}>{label}</label>
      {children({ id, 'aria-invalid': Boolean(fault), 'aria-describedby': told || undefined })}
      {hint && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {fault && (
        <p class="fault" id={`${id}-fault`} role="alert">
          {fault}
        </p>
      )}
    </div>
  )
}
