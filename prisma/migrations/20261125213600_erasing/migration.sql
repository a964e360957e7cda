-- Erasing a guest, whole: every place that a stay has for what says who somebody was. The first version left texts in the
-- audit, the reason of an override, the rig's form and the links, and took out of the audit which fields had been changed.

-- Nobody is put back into a stay whose guest was erased.
ALTER TABLE "stay" ADD CONSTRAINT "stay_erased_when_over" CHECK ("erased_at" IS NULL OR "state" IN ('departed', 'cancelled', 'no-show'));

-- What is measured of a rig stays with the park. What somebody called it and wished for does not.
CREATE FUNCTION "erase_in_rig"("rig" JSONB) RETURNS JSONB LANGUAGE sql IMMUTABLE AS $$
    SELECT CASE WHEN jsonb_typeof(rig) = 'object' THEN rig || '{"id": "erased"}' || CASE WHEN rig ? 'wishes' THEN '{"wishes": []}'::jsonb ELSE '{}' END ELSE rig END
$$;

-- A loop is kept where the park has one of that name: over the interface anything may be written there.
CREATE FUNCTION "erase_in_wanted"("wanted" JSONB, "of_park" UUID) RETURNS JSONB LANGUAGE sql STABLE AS $$
    SELECT CASE WHEN EXISTS (SELECT 1 FROM site WHERE park_id = of_park AND loop = wanted ->> 'loop') THEN wanted ELSE wanted - 'loop' END
$$;

-- Of what the audit kept of a row, the fields remain and so does that there was something in them.
CREATE FUNCTION "erase_in_entry"("entry" JSONB, "of_park" UUID) RETURNS JSONB LANGUAGE sql STABLE AS $$
    SELECT CASE WHEN entry IS NOT NULL THEN coalesce((
        SELECT jsonb_object_agg(key, CASE
            WHEN value IN ('null', '""') THEN value
            WHEN key IN ('guest_name', 'guest_email', 'guest_phone', 'plate', 'note', 'outcome_note', 'text', 'means', 'rig_query', 'token_hash') THEN '"erased"'
            WHEN key = 'fit_override' THEN value || '{"why": "erased"}'
            WHEN key = 'rig' THEN erase_in_rig(value)
            WHEN key = 'wanted' THEN erase_in_wanted(value, of_park)
            ELSE value END)
        FROM jsonb_each(entry)), '{}') END
$$;

-- Takes out of a stay everything that says who the guest was: the stay, its notes, mail, links, keys, what was written beside
-- payments, and what the audit kept of them. Nights, site, the rig's measures, prices, and who changed which field when
-- remain. Only of a stay that is over. Again, it takes out what was written since.
CREATE OR REPLACE FUNCTION "erase_guest"("of_stay" UUID) RETURNS void LANGUAGE plpgsql AS $$
DECLARE
    gone RECORD;
    parts UUID[];
    emails TEXT[];
BEGIN
    SELECT park_id, state INTO gone FROM stay WHERE id = of_stay FOR UPDATE;
    IF NOT FOUND OR gone.state NOT IN ('departed', 'cancelled', 'no-show') THEN
        -- The name is in the sentence too: the way up loses what is beside it.
        RAISE EXCEPTION 'only a stay that is over is erased (constraint "stay_erased_when_over")' USING ERRCODE = 'check_violation', CONSTRAINT = 'stay_erased_when_over';
    END IF;
    SELECT array_agg(DISTINCT lower(email)) INTO emails FROM (
        SELECT guest_email AS email FROM stay WHERE id = of_stay
        UNION ALL
        SELECT unnest(ARRAY[before ->> 'guest_email', after ->> 'guest_email']) FROM audit_entry WHERE subject_id = of_stay
    ) AS known WHERE email IS NOT NULL;
    SELECT array_agg(id) INTO parts FROM (
        SELECT of_stay AS id
        UNION ALL SELECT id FROM stay_note WHERE stay_id = of_stay
        UNION ALL SELECT id FROM stay_payment WHERE stay_id = of_stay
        UNION ALL SELECT id FROM stay_quote WHERE stay_id = of_stay
        UNION ALL SELECT id FROM stay_link WHERE stay_id = of_stay
        UNION ALL SELECT id FROM loan WHERE stay_id = of_stay
    ) AS part;
    UPDATE stay SET guest_name = 'erased', guest_email = NULL, guest_phone = NULL, plate = NULL, note = '', outcome_note = '', rig_query = NULL,
                    rig = erase_in_rig(rig), wanted = erase_in_wanted(wanted, park_id), fit_override = fit_override || '{"why": "erased"}',
                    erased_at = clock_timestamp(), version = version + 1, updated_at = clock_timestamp() WHERE id = of_stay;
    PERFORM set_config('padwright.erasing', 'on', true);
    UPDATE stay_payment SET means = 'erased' WHERE stay_id = of_stay AND means <> 'erased';
    -- Last of the changes: those above have entries of their own by now.
    UPDATE audit_entry SET before = erase_in_entry(before, park_id), after = erase_in_entry(after, park_id),
                           reason = CASE WHEN reason IS NULL OR actor_kind = 'clock' THEN reason ELSE 'erased' END,
                           actor = CASE WHEN actor_kind = 'guest' THEN NULL ELSE actor END
        WHERE subject_id = ANY (parts);
    PERFORM set_config('padwright.erasing', '', true);
    DELETE FROM stay_note WHERE stay_id = of_stay;
    DELETE FROM stay_link WHERE stay_id = of_stay;
    DELETE FROM idempotency_key WHERE stay_id = of_stay;
    DELETE FROM mail WHERE stay_id = of_stay OR (stay_id IS NULL AND park_id = gone.park_id AND lower(to_address) = ANY (emails));
END $$;

-- Takes out of a request that found nothing who left word. What was asked for, and why it was not to be had, still counts.
-- The fingerprint goes too: it was made from the name.
CREATE FUNCTION "erase_unmet"("of_request" UUID) RETURNS void LANGUAGE plpgsql AS $$
DECLARE
    gone RECORD;
    kind TEXT := nullif(current_setting('padwright.actor_kind', true), '');
BEGIN
    SELECT park_id, guest_name, guest_email, guest_phone, note INTO gone FROM unmet_request WHERE id = of_request AND guest_name IS NOT NULL FOR UPDATE;
    IF NOT FOUND THEN RETURN; END IF;
    IF kind IS NULL THEN
        RAISE EXCEPTION 'a change of unmet_request must say who makes it' USING ERRCODE = 'check_violation', CONSTRAINT = 'audit_entry_has_actor';
    END IF;
    UPDATE unmet_request SET guest_name = NULL, guest_email = NULL, guest_phone = NULL, note = '', fingerprint = 'erased ' || id,
                             rig = erase_in_rig(rig), wanted = erase_in_wanted(wanted, park_id) WHERE id = of_request;
    INSERT INTO audit_entry (park_id, actor_kind, actor, reason, subject, subject_id, before, after)
    VALUES (gone.park_id, kind, nullif(current_setting('padwright.actor', true), ''), nullif(current_setting('padwright.reason', true), ''), 'unmet_request', of_request,
            erase_in_entry(jsonb_build_object('guest_name', gone.guest_name, 'guest_email', gone.guest_email, 'guest_phone', gone.guest_phone, 'note', gone.note), gone.park_id),
            jsonb_build_object('guest_name', NULL, 'guest_email', NULL, 'guest_phone', NULL, 'note', ''));
    DELETE FROM mail WHERE stay_id IS NULL AND park_id = gone.park_id AND lower(to_address) = lower(gone.guest_email);
END $$;
