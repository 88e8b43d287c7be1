import { useId } from 'preact/hooks'
import { Entry } from '../../ui/Entry.tsx'
import type { Units } from '../show/figures.ts'
import { type FormField, lengthUnit } from './formFields.ts'

interface Props {
  readonly field: FormField
  readonly value: string
  readonly units: Units
  readonly fault: string | undefined
  readonly onType: (value: string) => void
}

/** One entry of a record's form, by what it asks for. */
export function FormEntry({ field, value, units, fault, onType }: Props) {
  const offered = useId()
  const label = field.is === 'length' ? `${field.label}, ${lengthUnit(units)}` : field.label
  const take = (event: { currentTarget: { value: string } }) => onType(event.currentTarget.value)
  return (
    <Entry label={label} hint={field.hint} fault={fault}>
      {(names) => {
        const all = { ...names, name: field.name, value, onInput: take }
        if (field.is === 'long') return <textarea {...all} rows={2} />
        if (field.is === 'day') return <input {...all} type="date" />
        if (field.is === 'yes')
          return (
            <select {...all}>
              <option value="">not known</option>
              <option value="true">yes</option>
              <option value="false">no</option>
            </select>
          )
        if (field.is === 'choice' || field.is === 'count')
          return (
            <select {...all}>
              {!field.options?.some((option) => option.value === '') && <option value="">choose</option>}
              {field.options?.map((option) => (
                <option key={option.value} value={option.value}>
                  {option.words}
                </option>
              ))}
            </select>
          )
        return (
          <>
            <input
              {...all}
              type="text"
              autocomplete="off"
              {...((field.is === 'length' || field.is === 'number') && { inputMode: 'decimal' as const })}
              {...(field.options && { list: offered })}
            />
            {field.options && (
              <datalist id={offered}>
                {field.options.map((option) => (
                  <option key={option.value} value={option.value} />
                ))}
              </datalist>
            )}
          </>
        )
      }}
    </Entry>
  )
}
