import { mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { readFolder, writeFolder } from '../../../src/cli/folder.ts'
import { archiveOf, SOUND } from './archiveOf.ts'

describe('an archive as a folder', () => {
  let place = ''
  beforeEach(async () => {
    place = await mkdtemp(join(tmpdir(), 'selion-folder-'))
  })
  afterEach(() => rm(place, { recursive: true }))
  const sorted = (files: ReadonlyMap<string, Uint8Array>) =>
    [...files].map(([path, bytes]) => [path, Buffer.from(bytes).toString('hex')]).sort()

  it('is written and read again the same, and nothing is left beside it', async () => {
    const files = archiveOf(SOUND)
    expect(await writeFolder(join(place, 'farm'), files)).toBeNull()
    const { files: again, faults } = await readFolder(join(place, 'farm'))
    expect(faults).toEqual([])
    expect(sorted(again)).toEqual(sorted(files))
    expect(await readdir(place)).toEqual(['farm'])
  })
  it('is written over an older archive: files that it has no more go, those of others stay', async () => {
    await writeFolder(join(place, 'farm'), archiveOf(SOUND))
    await writeFile(join(place, 'farm', 'notes.txt'), 'mine')
    const fewer = archiveOf({ 'farm.json': SOUND['farm.json']!, 'crops.csv': SOUND['crops.csv']! })
    expect(await writeFolder(join(place, 'farm'), fewer)).toBeNull()
    expect((await readdir(join(place, 'farm'), { recursive: true })).sort()).toEqual([
      'crops.csv',
      'farm.json',
      'notes.txt',
      'photos',
    ])
    expect(sorted((await readFolder(join(place, 'farm'))).files)).toEqual(sorted(fewer))
  })
  it('is written into an empty folder, but not over anything else', async () => {
    await mkdir(join(place, 'empty'))
    expect(await writeFolder(join(place, 'empty'), archiveOf(SOUND))).toBeNull()
    await mkdir(join(place, 'taxes'))
    await writeFile(join(place, 'taxes', '2024.txt'), 'x')
    expect(await writeFolder(join(place, 'taxes'), archiveOf(SOUND))).toMatch(
      /not empty and holds no selion-farm archive/,
    )
    expect(await readdir(join(place, 'taxes'))).toEqual(['2024.txt'])
    expect(await writeFolder(join(place, 'taxes', '2024.txt'), archiveOf(SOUND))).toMatch(/is a file/)
    expect(await readFile(join(place, 'taxes', '2024.txt'), 'utf8')).toBe('x')
  })
  it('follows no link out of itself', async () => {
    await writeFolder(join(place, 'farm'), archiveOf(SOUND))
    await writeFile(join(place, 'secret.csv'), 'id,name\n')
    await rm(join(place, 'farm', 'systems.csv'))
    await symlink(join(place, 'secret.csv'), join(place, 'farm', 'systems.csv'))
    await symlink('/etc/passwd', join(place, 'farm', 'photos', 'passwd.png'))
    await symlink(join(place, 'nowhere'), join(place, 'farm', 'photos', 'gone.png'))
    await rm(join(place, 'farm', 'crops.csv'))
    await symlink(join(place, 'farm', 'varieties.csv'), join(place, 'farm', 'crops.csv'))
    const { files, faults } = await readFolder(join(place, 'farm'))
    expect(faults.map((fault) => fault.file).sort()).toEqual(['photos/gone.png', 'photos/passwd.png', 'systems.csv'])
    expect(files.has('systems.csv')).toBe(false)
    expect(files.has('crops.csv')).toBe(true)
  })
  it('refuses to write a path that leads out of it', async () => {
    await expect(writeFolder(join(place, 'farm'), archiveOf({ '../evil.csv': 'x' }))).rejects.toThrow(/leads out/)
    expect(await readdir(place)).toEqual([])
  })
})
