import { useEffect, useState } from 'preact/hooks'
import { Picture } from './Picture.tsx'
import { shrinkPicture } from './shrinkPicture.ts'

/** A picture to be kept with the note: the file of one kept already, or the bytes of a new one. */
export type PictureTold = { readonly file: string } | { readonly bytes: Uint8Array } | null

interface Props {
  readonly value: PictureTold
  readonly onTell: (value: PictureTold) => void
}

/** A picture is taken, or chosen from those on the device; shrunk at once, kept with the note. */
export function PictureEntry({ value, onTell }: Props) {
  const [fault, setFault] = useState<string | null>(null)
  const take = async (input: HTMLInputElement) => {
    const file = input.files?.[0]
    if (!file) return
    input.value = ''
    setFault(null)
    try {
      onTell({ bytes: await shrinkPicture(file) })
    } catch {
      setFault(`${file.name} is no picture that this device can read.`)
    }
  }
  return (
    <fieldset class="picture-entry">
      <legend>Picture</legend>
      {value !== null && ('file' in value ? <Picture file={value.file} of="the note" /> : <NewPicture {...value} />)}
      <div class="picture-deeds">
        <label class="file">
          <span>Take one</span>
          <input
            type="file"
            accept="image/*"
            capture="environment"
            onChange={(event) => void take(event.currentTarget)}
          />
        </label>
        <label class="file">
          <span>Choose one</span>
          <input type="file" accept="image/*" onChange={(event) => void take(event.currentTarget)} />
        </label>
        {value !== null && (
          <button type="button" onClick={() => onTell(null)}>
            Without a picture
          </button>
        )}
      </div>
      {fault !== null && (
        <p class="fault" role="alert">
          {fault}
        </p>
      )}
    </fieldset>
  )
}

function NewPicture({ bytes }: { readonly bytes: Uint8Array }) {
  const [url, setUrl] = useState<string | null>(null)
  useEffect(() => {
    const made = URL.createObjectURL(new Blob([bytes.slice()], { type: 'image/jpeg' }))
    setUrl(made)
    return () => URL.revokeObjectURL(made)
  }, [bytes])
  return url === null ? null : <img class="noted-picture" src={url} alt="To be kept with the note" />
}
