/** A choice of one among two or three, all in sight. */
export function Picks<T extends string>(props: {
  label: string;
  name: string;
  options: Record<T, string>;
  chosen: T;
  choose: (choice: T) => void;
}) {
  const choices = Object.keys(props.options) as T[];
  return (
    <fieldset class="field">
      <legend>{props.label}</legend>
      <div class="choices">
        {choices.map((choice) => (
          <label key={choice} class="pick">
            <input
              type="radio"
              name={props.name}
              checked={choice === props.chosen}
              onChange={() => props.choose(choice)}
            />
            {props.options[choice]}
          </label>
        ))}
      </div>
    </fieldset>
  );
}
