import { useEffect, useState, type ReactNode } from 'react';
import { PressButton } from '../parts/button.tsx';
import { Leaf } from '../parts/leaf.tsx';
import { words } from '../words/words.ts';
import { useKitchen } from './kitchen.tsx';

type Theme = 'day' | 'night';

/** Who is on duty, and day or night. Asks who it is when nobody is. */
export function Duty(): ReactNode {
  const { onDuty } = useKitchen();
  const [asking, setAsking] = useState(onDuty === null);
  const [theme, setTheme] = useState<Theme>(themeAtStart);
  useEffect(() => {
    document.documentElement.dataset['theme'] = theme;
  }, [theme]);
  return (
    <div className="duty">
      <PressButton onPress={() => setAsking(true)}>{onDuty === null ? words.frame.whoIsOnDuty : words.frame.onDuty(onDuty.initials)}</PressButton>
      <PressButton look="quiet" onPress={() => setTheme(theme === 'day' ? 'night' : 'day')}>
        {theme === 'day' ? words.frame.night : words.frame.day}
      </PressButton>
      {asking ? <DutyLeaf onClose={() => setAsking(false)} /> : null}
    </div>
  );
}

/** What was chosen stays over a printed page, which has no frame of its own. */
function themeAtStart(): Theme {
  const { theme } = document.documentElement.dataset;
  if (theme === 'day' || theme === 'night') return theme;
  return window.matchMedia('(prefers-color-scheme: dark)').matches ? 'night' : 'day';
}

function DutyLeaf({ onClose }: { onClose(): void }): ReactNode {
  const { people, setOnDuty } = useKitchen();
  return (
    <Leaf title={words.frame.whoIsOnDuty} onClose={onClose}>
      <p className="soft">{words.frame.tapYourself}</p>
      <div className="form-grid">
        {people.map((person) => (
          <button
            key={person.id}
            type="button"
            className="row-button"
            onClick={() => {
              setOnDuty(person);
              onClose();
            }}
          >
            <span className="strong">{person.initials} {person.name}</span>
            <span className="soft small">{words.frame.roles[person.role]}</span>
          </button>
        ))}
      </div>
    </Leaf>
  );
}
