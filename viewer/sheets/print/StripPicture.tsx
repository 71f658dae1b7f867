import { useEffect, useState } from 'preact/hooks';
import type { TakenFile } from '../../spine/tasks/takeAway.ts';

/** The picture among the files of a strip. */
export function StripPicture({
  files,
  name,
}: {
  readonly files: readonly TakenFile[];
  readonly name: string;
}) {
  const picture = files.find(({ type }) => type === 'image/png');
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    if (!picture) return;
    const made = URL.createObjectURL(new Blob([picture.bytes], { type: picture.type }));
    setUrl(made);
    return () => URL.revokeObjectURL(made);
  }, [picture]);
  return url === null ? null : <img class="strip-picture" src={url} alt={name} width="1200" height="640" />;
}
