package storage

// Tags lists the tags that setups bear, each once, by name.
func (f *File) Tags() (out []string, err error) {
	err = f.view(func(q querier) error {
		rows, err := q.Query("SELECT DISTINCT name FROM tag ORDER BY name")
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var name string
			if err := rows.Scan(&name); err != nil {
				return err
			}
			if err := plainTexts("a tag", name); err != nil {
				return err
			}
			out = append(out, name)
		}
		return rows.Err()
	})
	return out, err
}

// Tried returns the result of the newest proof of each setup that has one, by
// the setup's row number.
func (f *File) Tried() (out map[int64]string, err error) {
	out = map[int64]string{}
	err = f.view(func(q querier) error {
		rows, err := q.Query("SELECT setup, result FROM proof WHERE id IN (SELECT max(id) FROM proof GROUP BY setup)")
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var setup int64
			var result string
			if err := rows.Scan(&setup, &result); err != nil {
				return err
			}
			out[setup] = result
		}
		return rows.Err()
	})
	return out, err
}

// Uses counts the setups that use a fighter's move or jump of that name, as
// theirs, in their string or as a reply.
func (f *File) Uses(fighter, name string) (n int, err error) {
	err = f.view(func(q querier) error {
		return q.QueryRow(`WITH f AS (SELECT id FROM fighter WHERE name = ?1),
			m AS (SELECT id FROM move WHERE fighter IN f AND name = ?2),
			j AS (SELECT id FROM jump WHERE fighter IN f AND name = ?2)
			SELECT count(*) FROM setup s WHERE ender IN m OR attack IN m OR landing_move IN m OR jump IN j
			OR id IN (SELECT setup FROM follow WHERE move IN m)
			OR id IN (SELECT setup FROM filler WHERE move IN m OR jump IN j)
			OR id IN (SELECT setup FROM reply WHERE move IN m OR jump IN j)`, fighter, name).Scan(&n)
	})
	return n, err
}
