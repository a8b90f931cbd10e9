package dev.lash.specs;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.lang.reflect.InvocationTargetException;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Loads the library anew with some of its resources changed or missing, as a broken jar would have them. */
final class OverlaidLoader extends ClassLoader {
    private static final String PACKAGE = "dev.lash.specs.";

    private final Map<String, Optional<byte[]>> changed = new HashMap<>();

    private final Set<String> refused = new HashSet<>();

    OverlaidLoader() {
        super(OverlaidLoader.class.getClassLoader());
    }

    /** A resource of the package has this content. */
    OverlaidLoader with(String resource, String content) {
        changed.put("dev/lash/specs/" + resource, Optional.of(BadInput.utf8(content)));
        return this;
    }

    /** A resource of the package is missing. */
    OverlaidLoader without(String resource) {
        changed.put("dev/lash/specs/" + resource, Optional.empty());
        return this;
    }

    /** A class of the package is missing. */
    OverlaidLoader refusing(String name) {
        refused.add(name);
        return this;
    }

    @Override
    protected Class<?> loadClass(String name, boolean resolve) throws ClassNotFoundException {
        if (refused.contains(name)) {
            throw new ClassNotFoundException(name);
        }
        if (!name.startsWith(PACKAGE)) {
            return super.loadClass(name, resolve);
        }
        synchronized (getClassLoadingLock(name)) {
            Class<?> loaded = findLoadedClass(name);
            if (loaded != null) {
                return loaded;
            }
            try (InputStream stream = getParent().getResourceAsStream(name.replace('.', '/') + ".class")) {
                if (stream == null) {
                    throw new ClassNotFoundException(name);
                }
                byte[] bytes = stream.readAllBytes();
                return defineClass(name, bytes, 0, bytes.length);
            } catch (IOException unreadable) {
                throw new ClassNotFoundException(name, unreadable);
            }
        }
    }

    @Override
    public InputStream getResourceAsStream(String name) {
        Optional<byte[]> content = changed.get(name);
        return content == null
                ? super.getResourceAsStream(name)
                : content.map(ByteArrayInputStream::new).orElse(null);
    }

    /** Opens the pack and gets its first template; what is thrown is thrown on. */
    Object firstTemplate() throws Throwable {
        try {
            Class<?> type = loadClass(PACKAGE + "SpecPack");
            Object pack = type.getMethod("bundled").invoke(null);
            Iterable<?> ids = (Iterable<?>) type.getMethod("ids").invoke(pack);
            return type.getMethod("get", String.class)
                    .invoke(pack, ids.iterator().next());
        } catch (InvocationTargetException thrown) {
            throw thrown.getCause();
        }
    }

    /** The version of the library. */
    Object version() throws Throwable {
        try {
            return loadClass(PACKAGE + "Versions").getMethod("library").invoke(null);
        } catch (InvocationTargetException thrown) {
            throw thrown.getCause();
        }
    }
}
