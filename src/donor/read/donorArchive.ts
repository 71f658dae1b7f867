import { ArchiveRefusal, type ArchiveRefusalCode } from '../../archive/archiveRefusal.ts';
import { type ZipArchive, zipArchive } from '../../archive/zipArchive.ts';
import { DonorRefusal, type DonorRefusalCode } from '../donorRefusal.ts';
import { limits } from './limits.ts';

const codes: Readonly<Record<ArchiveRefusalCode, DonorRefusalCode>> = {
  archive_damaged: 'donor_archive_damaged',
  archive_unsafe: 'donor_archive_unsafe',
  archive_too_large: 'donor_too_large',
};

/** The archive of a 3MF, within the limits of a donor.
 *  Throws `donor_archive_damaged`, `donor_archive_unsafe`, `donor_too_large`. */
export function donorArchive(bytes: Uint8Array): Pick<ZipArchive, 'has' | 'part'> {
  const { has, part } = asDonor(() =>
    zipArchive(bytes, limits, 'a whole 3MF archive; save or copy it again'),
  );
  return { has, part: (name) => asDonor(() => part(name)) };
}

function asDonor<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw error instanceof ArchiveRefusal
      ? new DonorRefusal(codes[error.code], error.given, error.allowed)
      : error;
  }
}
