import { useDrawer } from '../../drawer/drawer.ts';
import { Strip } from '../Strip.tsx';

/** What was done or refused last, with what takes it back. */
export function ToldStrip() {
  const { told } = useDrawer();
  const now = told.value;
  if (!now) return null;
  return (
    <Strip
      kind={now.kind === 'refused' ? 'bad' : 'note'}
      name="Done"
      deeds={
        <>
          {now.deeds?.map((deed) => (
            <button type="button" key={deed.label} onClick={deed.do}>
              {deed.label}
            </button>
          ))}
          <button
            type="button"
            onClick={() => {
              told.value = null;
            }}
          >
            noted
          </button>
        </>
      }
    >
      {now.lines.slice(0, 12).map((line) => (
        <p key={line}>{line}.</p>
      ))}
      {now.lines.length > 12 && <p>and {now.lines.length - 12} more.</p>}
    </Strip>
  );
}
