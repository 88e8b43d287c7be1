import { isLargeChoice } from '../state/largePhotos.ts'
import { addPhoto } from '../state/photos.ts'
import { takeStep } from '../state/steps.ts'
import { openLargePhoto } from './LargePhotos.tsx'
import { startPlacing } from './placing/startPlacing.ts'
import { quickenAdded } from './quickenNow.ts'
import { readFiles } from './readFiles.ts'
import { showPhoto } from './showPhoto.ts'

/** Chooses the files of an aerial photo, and opens it. */
export function OpenPhoto() {
  return (
    <label class="file">
      <span>Open an aerial photo</span>
      <input
        type="file"
        multiple
        accept=".tif,.tiff,.jpg,.jpeg,.png,.webp,.jgw,.pgw,.tfw,.jpgw,.pngw,.tifw,.wld,.wpw,.webpw,.prj"
        onChange={async (event) => {
          const input = event.currentTarget
          const chosen = [...(input.files ?? [])]
          if (isLargeChoice(chosen)) {
            input.value = ''
            return openLargePhoto(chosen, null)
          }
          const files = await readFiles(input.files)
          input.value = ''
          if (files.length > 0) await openPhoto(files, null)
        }}
      />
    </label>
  )
}

/** Opens a photo; one that does not tell where it lies is placed by hand. */
export async function openPhoto(files: Parameters<typeof addPhoto>[0], crs: string | null): Promise<void> {
  const added = await addPhoto(files, crs)
  if (added === 'unplaced') return startPlacing(files)
  if (!added) return
  takeStep(added.changed, added.changed.label)
  showPhoto(added.id)
  await quickenAdded(added.id)
}
