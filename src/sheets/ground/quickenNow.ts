import type { Photo } from '../../../geo/model/photos.ts'
import { askPhotoRoom, quicken, slowPhotos } from '../state/largePhotos.ts'
import { photos, refreshPhoto } from '../state/photos.ts'

/** Makes the smaller copies that a photo lacks, and shows it from them. */
export async function quickenNow(photo: Photo): Promise<void> {
  if (await quicken(photo)) await refreshPhoto(photo.id)
  await askPhotoRoom()
}

/** The same of a photo just kept, where it lacks any. */
export async function quickenAdded(id: string): Promise<void> {
  const photo = photos.value.find((shown) => shown.photo.id === id)?.photo
  if (photo && slowPhotos.value.has(id)) await quickenNow(photo)
  else await askPhotoRoom()
}
