package dev.lash.specs;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveRole;
import java.util.EnumMap;
import java.util.List;
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
        EngineSpec.Builder builder = base.toBuilder();
        boolean ownWindows = List.of("clearances", "setTo", "closerClearances", "closerSetTo").stream()
                .anyMatch(name -> fields.find(name).isPresent());
        for (Gap gap : base.gaps()) {
            boolean closer = gap == Gap.CLOSER;
            String setName = closer ? "closerSetTo" : "setTo";
            Map<ValveRole, ClearanceWindow> check = reader.windows(fields, closer ? "closerClearances" : "clearances");
            Map<ValveRole, ClearanceWindow> setTo = reader.windows(fields, setName);
            for (ValveRole role : ValveRole.values()) {
                Optional<ClearanceSpec> typical = base.findClearance(role, gap);
                Optional<ClearanceWindow> window =
                        Optional.ofNullable(check.get(role)).or(() -> typical.map(ClearanceSpec::check));
                if (window.isEmpty()) {
                    reader.refuseSetToAlone(fields, setName, check, setTo);
                    continue;
                }
                ClearanceWindow setWindow = Optional.ofNullable(setTo.get(role))
                        .or(() -> check.containsKey(role) ? Optional.empty() : typical.map(ClearanceSpec::setTo))
                        .orElse(window.get());
                String confirmed = check.containsKey(role) || !ownWindows ? confirmedFrom.getOrDefault(role, "") : "";
                ClearanceSpec spec = document.at(
                        setTo.containsKey(role) ? fields.get(setName) : fields.object(),
                        () -> new ClearanceSpec(window.get(), setWindow, confirmed));
                if (closer) {
                    builder.closerClearance(role, spec);
                } else {
                    builder.clearance(role, spec);
                }
            }
        }
        reader.checkInterval(fields).ifPresent(builder::checkInterval);
        reader.wearPrior(fields).ifPresent(builder::wearPrior);
        return document.at(fields.object(), builder::build);
    }
}
