/** Names that one system or another keeps for devices, whatever ending they have. "Naming Files, Paths, and Namespaces",
 *  Microsoft Learn, Windows apps, section Naming conventions. */
const DEVICE = /^(con|prn|aux|nul|conin\$|conout\$|(com|lpt)[\d¹²³])$/i;
const LONGEST_STEP = 120;
const LONGEST = 240;

/** Why a name in an archive must not become a file, as the end of "is a name that ..."; undefined where every system
 *  makes the same plain file of it, inside the folder it is unpacked to. Steps are parted by `/`.
 *  @example nameFault('made/clip.stl') // => undefined
 *  @example nameFault('../clip.stl') // => 'leads out of the archive' */
export function nameFault(name: string): string | undefined {
  if (name === '') return 'is empty';
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for.
  if (/[\u0000-\u001f\u007f-\u009f]/.test(name)) return 'holds control characters';
  if (/^[/\\]|^[a-z]:/i.test(name)) return 'leads to a fixed place';
  if (/\\/.test(name)) return 'holds a backslash';
  const steps = name.split('/');
  if (steps.includes('..')) return 'leads out of the archive';
  if (steps.some((step) => step === '' || step === '.')) return 'has an empty step';
  if (/[<>:"|?*]/.test(name)) return 'holds one of < > : " | ? *';
  // Marks that nobody sees, or that turn the order of letters around; halves of characters.
  if (/[\p{Cf}\p{Cs}\p{Co}\p{Zl}\p{Zp}\ufffd]/u.test(name)) return 'holds characters that do not show';
  // What one system writes in one character and another in two would be two names here and one there.
  if (name !== name.normalize('NFC')) return 'is not in normal form NFC';
  if (steps.some((step) => step.startsWith('.'))) return 'begins with a point';
  if (steps.some((step) => /[. ]$|^ /.test(step))) return 'ends with a point or a blank, or begins with one';
  if (steps.some((step) => DEVICE.test(step.split('.')[0]!.trimEnd())))
    return 'some systems keep for a device';
  if (name.length > LONGEST || steps.some((step) => step.length > LONGEST_STEP)) return 'is too long';
  return undefined;
}

/** Names that would be one file on a system that does not mind the case of letters.
 *  @example sameName('A.stl') === sameName('a.STL') // => true */
export const sameName = (name: string): string => name.normalize('NFKC').toUpperCase().toLowerCase();
