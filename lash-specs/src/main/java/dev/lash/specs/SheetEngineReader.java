package dev.lash.specs;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.ValveRole;
import dev.lash.measure.Usage;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;

/**
 * Reads the engine of a sheet: whole in place, or a template with the shop's figures laid over it.
 *
 * <p>{@code confirmedFrom} confirms the windows that the sheet itself gives; with a template and no windows of its own it
 * confirms the template's.
 */
final class SheetEngineReader {
    private final SpecPack pack;
    private final JsonDocument document;

    SheetEngineReader(SpecPack pack, JsonDocument document) {
        this.pack = pack;
        this.document = document;
    }

    EngineSpec read(JsonFields fields) {
        Map<ValveRole, String> confirmedFrom = confirmations(fields);
        EngineReader reader = new EngineReader(document);
        Optional<Json> inline = fields.find("inline");
        if (inline.isPresent()) {
            JsonFields inner = document.fields(inline.get());
            EngineSpec spec = reader.read(inner, confirmedFrom, inner.text("template"));
            inner.finish();
            fields.finish();
            return spec;
        }
        Json name = fields.get("template");
        String id = document.text(name, "the id of a template");
        Template template = pack.find(id)
                .orElseThrow(() -> document.error(
                        name,
                        "is not a template of the pack",
                        "one of " + String.join(", ", pack.ids()),
                        "write one of these"));
        EngineSpec spec = overlaid(template.spec(), fields, reader, confirmedFrom);
        fields.finish();
        return spec;
    }

    /** Where the shop read its windows: one place for all, or one for each role. */
    private Map<ValveRole, String> confirmations(JsonFields fields) {
        Map<ValveRole, String> places = new EnumMap<>(ValveRole.class);
        fields.find("confirmedFrom").ifPresent(value -> {
            if (value.kind() == Json.Kind.OBJECT) {
                JsonFields byRole = document.fields(value);
                for (ValveRole role : ValveRole.values()) {
                    places.put(role, byRole.text(role.code()));
                }
                byRole.finish();
            } else {
                String place = document.text(value, "the manual and page where the shop read the windows");
                for (ValveRole role : ValveRole.values()) {
                    places.put(role, place);
                }
            }
        });
        return places;
    }

    private EngineSpec overlaid(
            EngineSpec base, JsonFields fields, EngineReader reader, Map<ValveRole, String> confirmedFrom) {
        Map<ValveRole, ClearanceWindow> check = reader.windows(fields, "clearances");
        Map<ValveRole, ClearanceWindow> setTo = reader.windows(fields, "setTo");
        boolean ownWindows = !check.isEmpty() || !setTo.isEmpty();
        EngineSpec.Builder builder = base.toBuilder();
        for (ValveRole role : ValveRole.values()) {
            boolean own = check.containsKey(role);
            Optional<ClearanceSpec> typical = base.findClearance(role);
            Optional<ClearanceWindow> window =
                    Optional.ofNullable(check.get(role)).or(() -> typical.map(ClearanceSpec::check));
            if (window.isEmpty()) {
                reader.refuseSetToAlone(fields, check, setTo);
                continue;
            }
            ClearanceWindow checkWindow = window.get();
            ClearanceWindow setWindow = Optional.ofNullable(setTo.get(role))
                    .or(() -> check.containsKey(role) ? Optional.empty() : typical.map(ClearanceSpec::setTo))
                    .orElse(checkWindow);
            builder.clearance(
                    role,
                    document.at(
                            setTo.containsKey(role) ? fields.get("setTo") : fields.object(),
                            () -> new ClearanceSpec(
                                    checkWindow,
                                    setWindow,
                                    own || !ownWindows ? confirmedFrom.getOrDefault(role, "") : "")));
        }
        fields.find("checkInterval", "a usage such as \"6000 km\"", Usage::parse)
                .ifPresent(builder::checkInterval);
        return document.at(fields.object(), builder::build);
    }
}
